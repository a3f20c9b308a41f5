import { whyList, whyResult } from '../../core/report/why.js';
import { inUnits } from '../../core/units/marked.js';
import { shippedChecks } from '../checks.js';
import { shippedTable } from '../load.js';
import { renderWhy, renderWhyList } from '../render/why.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { printJson, printSheet, unitsOf } from './view.js';

/** Tells what a property or a model rests on; lists both when none is named. */
export async function whyVerb(call: Call): Promise<ExitCode> {
  const { sources, model } = shippedTable();
  const tables = { checks: shippedChecks(), sources, figures: model };
  const json = call.options['json'] === true;
  if (call.operands.length === 0) {
    const list = whyList(tables);
    if (json) printJson(call.io, list);
    else printSheet(call.io, (page) => renderWhyList(page, list));
    return 0;
  }
  const why = whyResult(call.operands.join(' '), tables);
  if (json) printJson(call.io, why);
  else printSheet(call.io, (page) => renderWhy(page, inUnits(why, unitsOf(call)), call.options['all'] === true));
  return 0;
}

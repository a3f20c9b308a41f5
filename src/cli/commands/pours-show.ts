import { nearestWord } from '../../core/problems/nearest.js';
import { refuse } from '../../core/problems/problem.js';
import { explain } from '../../core/problems/words.js';
import { type CurvedPour, poursResult } from '../../core/report/pours-result.js';
import { fittedCurve } from '../../core/shop/pours-curve.js';
import { wasteFigure } from '../../core/shop/pours-measured.js';
import type { Pour } from '../../core/shop/pours-record.js';
import { renderPours } from '../render/pours.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { joined, openPourShop, openRecord, recordFile, sourceReader } from './pours-open.js';
import { printInUnits, printJson } from './view.js';

export async function poursShow(call: Call): Promise<ExitCode> {
  const { open } = await openPourShop(call, true);
  const { shelf, shop } = open;
  const { file, namedIn } = recordFile(call, open);
  const { pours, problems } = await openRecord(call, file, namedIn);
  const name = call.operands[1];
  const wanted = name === undefined ? pours : [requirePour(name, pours, file)];
  const sourceOf = sourceReader(call, file, shelf);
  const shown: CurvedPour[] = [];
  for (const pour of wanted) {
    const found = await joined(pour, sourceOf, shelf);
    if ('problems' in found) shown.push({ pour, curve: null, why: found.problems.map(explain).join(' ') });
    else {
      const curve = fittedCurve(found.known, shop.scale.step, wasteFigure(shop.waste));
      shown.push({ pour, curve, why: curve === null ? 'it was not weighed, and no mould is known' : null });
    }
  }
  const result = poursResult(file, shown, problems);
  if (call.options.json === true) printJson(call.io, result);
  else
    printInUnits(call, shop, result, (page, told, view) => renderPours(page, told, view.wording, name !== undefined));
  return 0;
}

export function requirePour(name: string, pours: readonly Pour[], file: string): Pour {
  const found = pours.find((p) => p.name === name);
  if (found !== undefined) return found;
  const nearest = nearestWord(
    name,
    pours.map((p) => p.name),
  );
  return refuse({
    code: 'option-invalid',
    where: { file },
    found: name,
    expected:
      pours.length === 0 ? 'a pour in the record; it is still empty' : `one of ${pours.map((p) => p.name).join(', ')}`,
    ...(nearest !== undefined && { nearest }),
  });
}

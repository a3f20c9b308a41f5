import { refuse } from '../../core/problems/problem.js';
import { barred } from '../../core/report/barred.js';
import { cardHtml } from '../../core/report/card-html.js';
import { cardResult } from '../../core/report/card-result.js';
import { PAPERS, type Paper } from '../../core/report/card-style.js';
import { parseAmount } from '../../core/units/quantity.js';
import { writeText } from '../files.js';
import { renderCard } from '../render/card.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { openMixed, wholePieces } from './mixed.js';
import { printInUnits, printJson, viewOf } from './view.js';

/** Prints the weigh-out card of a brief or a recipe, or writes it as a page to print. */
export async function cardVerb(call: Call): Promise<ExitCode> {
  const { html, bowl, paper } = call.options as { html?: string; bowl?: string; paper?: Paper };
  const pieces = wholePieces(call, 'pieces');
  const { mixed, open } = await openMixed(call, call.operands[0]!, pieces === undefined ? {} : { pieces });
  const size = bowl === undefined ? {} : { bowl: parseAmount(bowl, { path: '--bowl' }, { positive: true }) };
  const card = cardResult(mixed, open.shop, size);
  const { wording } = viewOf(call, open.shop);
  if (html !== undefined) {
    requirePage(html);
    writeText(
      html,
      cardHtml(card, { paper: paper ?? (wording.system === 'us' ? PAPERS[1] : PAPERS[0]), system: wording.system }),
    );
    call.io.err(`pourwright: wrote ${html}\n`);
  }
  if (call.options.json === true) printJson(call.io, card);
  else if (html === undefined) printInUnits(call, open.shop, card, (page, told) => renderCard(page, told, wording));
  return card.met && !barred(card) ? 0 : 1;
}

/** A mistyped name must not replace a brief or a price list. */
function requirePage(file: string): void {
  if (/\.html?$/i.test(file)) return;
  refuse({
    code: 'option-invalid',
    where: { path: '--html' },
    found: file,
    expected: 'a file name that ends in .html',
  });
}

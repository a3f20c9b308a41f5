import { propertyById } from '../../core/blend/properties/index.js';
import { chanceWords } from '../../core/report/chance-words.js';
import { marginWords, printBeside } from '../../core/report/margin-words.js';
import { printWindow, significant, type Wording } from '../../core/report/print.js';
import type {
  AssessmentResult,
  IngredientResult,
  PropertyResult,
  ProposalResult,
  VerdictResult,
} from '../../core/report/result-schema.js';
import { isTold, printLikely, printTold } from '../../core/report/told-figures.js';
import { scoopsOf, volumeWords } from '../../core/report/volume-words.js';
import { printBatch, printFine } from '../../core/report/weighed.js';
import { printQuantity } from '../../core/units/print.js';
import type { Sheet } from './page.js';
import { spreadWords } from './spread.js';

/** "scoops of 100 mL": the size of the shop's scoop, as its counts have it. */
function scoopSize(blend: readonly IngredientResult[], { system }: Wording): string {
  const known = blend.find((i) => i.scoops !== null && i.scoops > 0 && i.litres !== null);
  if (known === undefined) return 'scoops';
  return `scoops of ${printQuantity(significant((1000 * known.litres!) / known.scoops!, 6), 'volume', { system })}`;
}

/** A blend, the scale it is weighed on and the parts it may be counted out in. */
interface Blended extends Pick<AssessmentResult, 'blend' | 'batch'> {
  readonly parts?: ProposalResult['parts'];
}

/** The blend to weigh out. Narrow sheets keep the batch weights and drop what can be done without. */
export function blendTable(page: Sheet, { blend, batch, parts }: Blended, wording: Wording): void {
  const { system } = wording;
  const wide = page.width >= 84;
  const middling = page.width >= 60;
  const columns: [string, (i: IngredientResult) => string][] = [
    ['', (i) => i.name],
    ...(middling ? ([['one piece', (i) => printFine(i.pieceGrams, batch.step, system)]] as typeof columns) : []),
    ['weigh out', (i) => page.paint.bold(printBatch(i, batch.step, system))],
    ...(middling ? ([['parts\nby mass', (i) => significant(i.partsByMass, 3).toString()]] as typeof columns) : []),
    ...(wide
      ? ([
          ['loose\nvolume', (i) => volumeWords(i, parts, system)],
          [scoopSize(blend, wording).replace(' of ', ' of\n'), (i) => scoopsOf(i, parts)],
        ] as typeof columns)
      : []),
  ];
  page.table(
    blend.map((i) => columns.map(([, cell]) => cell(i))),
    columns.map((_c, n) => (n === 0 ? 'left' : 'right')),
    columns.map(([name]) => name),
  );
  if (!wide) {
    const known = blend.filter((i) => i.scoops !== null);
    const counts = known.map((i) => `${i.name} ${scoopsOf(i, parts)}`).join(', ');
    if (known.length > 0) page.paragraph(`${scoopSize(blend, wording)}: ${counts}`, 2, 4);
  }
}

/** Columns of a sheet that has room for all that is told of a target beside its name; below, it stands under it. */
const ROOM_FOR_VERDICTS = 76;

export function verdictTable(
  page: Sheet,
  verdicts: readonly VerdictResult[],
  properties: readonly Pick<PropertyResult, 'property' | 'why'>[],
  wording: Wording,
): void {
  const { green, red } = page.paint;
  const whyOf = (id: string) => properties.find((p) => p.property === id)?.why ?? null;
  // What is beyond telling stands in the column of values already.
  const lacking = (id: string): string =>
    isTold({ value: null, why: whyOf(id) }) ? '' : (whyOf(id) ?? 'no such property');
  const rows = verdicts.map((v) => [
    v.met ? green('met') : red('MISSED'),
    v.name,
    printWindow(v.property, v.min, v.max, wording),
    printBeside(v, whyOf(v.property), wording),
    v.margin === null ? lacking(v.property) : marginWords(v, wording),
    chanceWords(v.chance),
  ]);
  if (page.width >= ROOM_FOR_VERDICTS) page.table(rows);
  else
    for (const [mark, name, window, value, ...more] of rows) {
      page.paragraph(`${mark}  ${name}: ${value}, ${window}`, 2, 4);
      const rest = more.filter((words) => words !== '').join(', ');
      if (rest !== '') page.paragraph(rest, 4);
    }
}

/** What to expect of the piece: value and likely range of every property the blend has. */
export function propertyTable(page: Sheet, properties: readonly PropertyResult[], wording: Wording): void {
  const rows = properties.flatMap((p) => {
    if (!isTold(p)) return [];
    return [[p.name, printTold(p, wording), page.paint.dim(printLikely(p, wording))]];
  });
  page.table(rows, ['left', 'right', 'left']);
}

/** Value, what it rests on and which models it comes from, for --why. */
export function restsOn(page: Sheet, properties: readonly PropertyResult[]): void {
  for (const p of properties) {
    if (!isTold(p)) continue;
    const meaning = propertyById(p.property)?.meaning ?? '';
    const spread = p.contributors.length === 0 ? '' : ` Most of its spread: ${spreadWords(p)}.`;
    page.paragraph(
      `${page.paint.bold(p.name)}: ${meaning}. Rests on ${p.restsOn}.${spread} Models: ${p.models.join(', ')}.`,
      2,
      4,
    );
  }
}

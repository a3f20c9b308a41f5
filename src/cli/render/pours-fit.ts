import { figureIn } from '../../core/report/figure-units.js';
import { fitDoubts, UNTRUSTED_FIT } from '../../core/report/fit-words.js';
import type { FitResult } from '../../core/report/pours-schema.js';
import { significant } from '../../core/report/print.js';
import type { UnitSystem } from '../../core/units/print.js';
import type { Sheet } from './page.js';

type Fitted = FitResult['figures'][number];

/** `line`: what the shop file is to say for the figures to count. */
export function renderFit(page: Sheet, result: FitResult, system: UnitSystem, line: string): void {
  const { bold, dim, yellow } = page.paint;
  for (const warning of result.warnings)
    page.paragraph(`${yellow(warning.severity.toUpperCase())} ${warning.message}`, 0, 2);
  page.line(
    bold(
      `What ${result.used.length === 1 ? 'one pour teaches' : `${result.used.length} pours teach`} (${result.file})`,
    ),
  );
  page.paragraph(
    dim(
      `${result.measurements} measurements; misfit ${significant(result.misfit.before, 2)} before, ${significant(result.misfit.after, 2)} after (about 1 or less: the model and the scale agree)`,
    ),
  );
  for (const { lead, text } of fitDoubts(result)) page.paragraph(`${yellow(lead)} ${text}`, 0, 2);
  page.heading('FIGURES: likely range before and after');
  const notable = result.figures.filter((f) => f.notable);
  page.table(
    notable.map((f) => [f.title, range(f.before, f.unit, system), bold(range(f.after, f.unit, system))]),
    ['left', 'left', 'left'],
    ['', 'before', 'after'],
  );
  const rest = result.figures.length - notable.length;
  if (rest > 0) page.paragraph(dim(`${rest} more figures take part and have hardly moved.`), 2);
  page.line();
  if (!result.trusted) {
    page.paragraph(UNTRUSTED_FIT, 2);
  } else if (result.written === null) page.paragraph('Nothing was written.', 2);
  else {
    page.paragraph(`Written to ${result.written}.`, 2);
    const next = result.named
      ? 'The shop file names it: propose and assess use these figures from now on, and say so.'
      : `The shop file does not name it yet, so propose and assess stay as they are: add this line to it: ${line}`;
    page.paragraph(next, 2);
  }
}

function range({ value, low, high }: Fitted['before'], unit: Fitted['unit'], system: UnitSystem): string {
  const shown = figureIn(unit, system);
  const say = (v: number): string => String(significant(unit === 'fraction' ? 100 * v : shown.of(v), 3));
  const share = unit === 'fraction' || unit === 'percent';
  const word = share ? ' %' : unit === 'factor' ? '' : ` ${shown.unit}`;
  return `${say(value)}${word} (${say(low)} to ${say(high)})`;
}

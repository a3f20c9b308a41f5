import type { PoursResult, ShownPour } from '../../core/report/pours-schema.js';
import { significant, type Wording } from '../../core/report/print.js';
import { OVER_A_YEAR } from '../../core/units/foretold.js';
import { printQuantity } from '../../core/units/print.js';
import { chart } from './chart.js';
import type { Sheet } from './page.js';

const VERDICTS: Readonly<Record<ShownPour['constantWeight']['verdict'], string>> = {
  dry: 'at constant weight',
  drying: 'still drying',
  'too-soon': 'too soon to tell',
  'not-weighed-twice': 'not weighed twice',
};

/** All pours in a table, or one with its chart. */
export function renderPours(page: Sheet, result: PoursResult, wording: Wording, one: boolean): void {
  const { bold, dim, yellow } = page.paint;
  for (const warning of result.warnings)
    page.paragraph(`${yellow(warning.severity.toUpperCase())} ${warning.message}`, 0, 2);
  if (one) {
    renderPour(page, result.pours[0]!, wording);
    return;
  }
  page.line(bold(`${result.pours.length === 1 ? '1 pour' : `${result.pours.length} pours`} in ${result.file}`));
  const wide = page.width >= 76;
  page.table(
    result.pours.map((p) => [
      p.pour,
      p.date ?? '–',
      p.brief ?? (p.blend === null ? '–' : 'blend as written'),
      ...(wide ? [minutes(p.setMinutes), minutes(p.demouldMinutes)] : []),
      String(p.weights.length),
      VERDICTS[p.constantWeight.verdict],
    ]),
    ['left', 'left', 'left', ...(wide ? (['right', 'right'] as const) : []), 'right', 'left'],
    ['pour', 'date', 'poured', ...(wide ? ['set', 'demould'] : []), 'weights', ''],
  );
  const first = result.pours[0];
  if (first !== undefined) page.paragraph(dim(`pourwright pours show ${first.pour} draws one.`), 2);
}

/** A time as it was written down, not as it would be foretold. */
const minutes = (value: number | null): string => (value === null ? '–' : printQuantity(value, 'setTime'));

function renderPour(page: Sheet, pour: ShownPour, wording: Wording): void {
  const { bold, dim } = page.paint;
  const mass = (g: number): string => printQuantity(significant(g, 4), 'mass', { system: wording.system });
  page.line(bold(`Pour ${pour.pour}${pour.date === null ? '' : `, ${pour.date}`}`));
  const about = [
    pour.brief,
    pour.setMinutes === null ? null : `set after ${minutes(pour.setMinutes)}`,
    pour.demouldMinutes === null ? null : `demoulded after ${minutes(pour.demouldMinutes)}`,
    pour.flow === '' ? null : `flow: ${pour.flow}`,
    pour.bubbles === '' ? null : `bubbles: ${pour.bubbles}`,
    pour.cracks === '' ? null : `cracks: ${pour.cracks}`,
  ].filter((part) => part !== null);
  if (about.length > 0) page.paragraph(dim(about.join(' · ')));
  if (pour.blend !== null) page.paragraph(dim(pour.blend));
  if (pour.note !== '') page.paragraph(`Note: ${pour.note}`);
  if (pour.curve === null) page.paragraph(`No curve: ${pour.why}`, 2);
  else drying(page, pour, pour.curve, mass);
  page.line();
  page.paragraph(verdict(pour, mass), 2);
}

function drying(
  page: Sheet,
  pour: ShownPour,
  curve: NonNullable<ShownPour['curve']>,
  mass: (g: number) => string,
): void {
  page.heading('WEIGHT AGAINST TIME (o weighed, . fitted to this pour, - dry)');
  const rows = chart({
    width: page.width - 4,
    height: 13,
    line: curve.points.map((p) => ({ x: p.hours, y: p.grams })),
    marks: pour.weights.map((w) => ({ x: w.hours, y: w.grams })),
    level: curve.dryGrams,
    yText: mass,
    xText: (hours) => (hours === 0 ? 'water in' : printQuantity(significant(hours, 2), 'time')),
  });
  for (const row of rows) page.line(`  ${row}`);
  const when =
    curve.dryAfterHours === null
      ? curve.why === OVER_A_YEAR
        ? `By this curve it comes to constant weight, ${mass(curve.dryGrams)}, ${OVER_A_YEAR} after the water went in.`
        : 'In this room it never comes to constant weight.'
      : `By this curve it is at constant weight, ${mass(curve.dryGrams)}, ${printQuantity(significant(curve.dryAfterHours, 2), 'time')} after the water went in.`;
  page.line();
  page.paragraph(when, 2);
}

/** By the scale alone: the rule of two weighings. */
function verdict(pour: ShownPour, mass: (g: number) => string): string {
  const { verdict: word, change, apartHours } = pour.constantWeight;
  if (change === null || apartHours === null) {
    return 'By the scale: weigh it twice, 15 hours or more apart; less than 0.1 % between them is constant weight.';
  }
  const last = pour.weights.at(-1)!;
  const apart = printQuantity(significant(apartHours, 2), 'time');
  const seen = `${Number((100 * change).toPrecision(2))} % in ${apart}, ${mass(last.grams)} at the last`;
  if (word === 'dry') return `By the scale: at constant weight (${seen}; less than 0.1 % in 15 hours or more).`;
  if (word === 'drying') return `By the scale: still drying (${seen}).`;
  return `By the scale: too soon to tell (${seen}); leave 15 hours or more between weighings.`;
}

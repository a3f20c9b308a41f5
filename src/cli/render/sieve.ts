import type { SandMix, SandResult, SieveResult } from '../../core/sieve/sieve-schema.js';
import { missWords, sieveWords } from '../../core/sieve/words.js';
import { printQuantity, type UnitSystem } from '../../core/units/print.js';
import type { Sheet } from './page.js';
import { sievePlot } from './sieve-plot.js';

const percent = (share: number, digits = 3): string => `${Number((100 * share).toPrecision(digits))} %`;

/** Loss in sieving above which C136 has the test done again: 0.3 % (from memory). */
const MOST_LOSS = 0.003;

export function renderSieve(page: Sheet, result: SieveResult, system: UnitSystem): void {
  if (result.invented) page.paragraph(page.paint.dim('invented example'));
  for (const sand of result.sands) renderSand(page, sand, system);
  if (result.mix !== null) renderMix(page, result.mix, result.sands, system);
  page.heading('GRADING CURVES');
  sievePlot(page, result, system);
}

function renderSand(page: Sheet, sand: SandResult, system: UnitSystem): void {
  page.heading(sand.material === null ? sand.name : `${sand.name} (${sand.material}, from the shelf)`);
  const { weights } = sand;
  if (weights === null) {
    page.table(
      sand.grading.map((p) => [sieveWords(p.sieve, system), `${Number(p.passing.toFixed(1))} %`]),
      ['right', 'right'],
      ['sieve', 'passing'],
    );
  } else {
    const coarseFirst = [...weights].sort((a, b) => b.sieve - a.sieve);
    let retained = 0;
    page.table(
      coarseFirst.map(({ sieve, grams }) => {
        retained += grams / sand.total!;
        const rest = sieve === 0 ? ['', ''] : [percent(retained), percent(Math.max(0, 1 - retained))];
        return [sieveWords(sieve, system), printQuantity(Number(grams.toPrecision(4)), 'mass', { system }), ...rest];
      }),
      ['right', 'right', 'right', 'right'],
      ['sieve', 'stayed', 'retained', 'passing'],
    );
  }
  if (sand.loss !== null) {
    const again = Math.abs(sand.loss) > MOST_LOSS ? ' Over 0.3 %: sieve again.' : '';
    page.paragraph(`${percent(sand.loss, 2)} of the sample was lost in sieving.${again}`, 2);
  }
  verdict(page, sand, system);
  const assumed = sand.voidsAssumed ? ' (assumed; weigh a full measure to know)' : '';
  page.paragraph(`Holes when loose: ${percent(sand.voids, 2)}${assumed}.`, 2);
}

type Judged = Pick<SandResult, 'finenessModulus' | 'envelope'>;

function verdict(page: Sheet, { finenessModulus, envelope }: Judged, system: UnitSystem): void {
  page.paragraph(`Fineness modulus ${page.paint.bold(finenessModulus.toFixed(2))} (concrete sand 2.3 to 3.1).`, 2);
  if (envelope.inside) {
    page.paragraph(`${page.paint.green('inside')} the envelope of ASTM C33 for fine aggregate.`, 2);
    return;
  }
  page.paragraph(
    `${page.paint.yellow('outside')} the envelope of ASTM C33 for fine aggregate (casting sands are often finer on purpose):`,
    2,
  );
  for (const words of missWords(envelope, system)) page.paragraph(words, 4, 6);
}

function renderMix(page: Sheet, mix: SandMix, sands: readonly SandResult[], system: UnitSystem): void {
  const size = (mm: number): string => sieveWords(mm, system);
  const { curve, q, smallest, largest } = mix.target;
  const name =
    curve === 'fuller'
      ? `Fuller’s curve, exponent ${q}, largest ${size(largest)}`
      : `modified Andreasen curve, exponent ${q}, ${size(smallest)} to ${size(largest)}`;
  page.heading(`MIX NEAREST THE ${name}`);
  page.table(
    sands.map((s, i) => [s.name, percent(mix.byMass[i]!), percent(mix.byVolume[i]!)]),
    ['left', 'right', 'right'],
    ['', 'by mass', 'by volume of grains'],
  );
  page.paragraph(`Misses the curve by ${mix.miss.toFixed(1)} points on average (root mean square).`, 2);
  verdict(page, mix, system);
  page.paragraph(mix.note, 2);
}

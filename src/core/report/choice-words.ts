import { propertyById } from '../blend/properties/index.js';
import { printQuantity } from '../units/print.js';
import { printMiss } from './margin-words.js';
import { printProperty, printWindow, type Wording } from './print.js';
import type { ProposalResult } from './result-schema.js';
import { printTold } from './told-figures.js';
import { partOf, scoopsOfPart } from './volume-words.js';

type System = ProposalResult['systems'][number];
type Chosen = Pick<ProposalResult, 'blend' | 'limits' | 'parts' | 'objective'>;
/** What may keep a blend that exists from being weighed out. */
type Kept = Pick<ProposalResult, 'coarse' | 'parts' | 'conflict' | 'status'>;

/** Whether it is whole numbers that keep a blend from being weighed out. */
const forParts = ({ parts, conflict }: Pick<Kept, 'parts' | 'conflict'>): boolean =>
  parts?.found === true && conflict === null;

/** A blend counted out in whole-number parts, in words. */
export interface PartsWords {
  /** "by weight" or "by scoop"; null where nothing can be counted out, which `lines` then say. */
  readonly by: string | null;
  /** "4 sand : 2 cement : 1 water" */
  readonly numbers: string;
  readonly lines: readonly string[];
}

const dry = (n: number): string => (n === 1 ? '1 dry ingredient' : `${n} dry ingredients`);

/** What a limit on ingredients made of the blend; null where it made nothing of it. */
export function limitWords(result: Chosen & Kept, wording: Wording): string | null {
  const { limits, objective, status } = result;
  if (limits === null || limits.without === null) return null;
  const { property, exact } = objective;
  const [here, without] = [exact, limits.without].map((v) => printProperty(property, v, wording));
  const why =
    limits.ingredients === null
      ? `with no ingredient below ${printQuantity(limits.leastDose, 'mass', { system: wording.system })}`
      : `with at most ${dry(limits.ingredients)}`;
  const { name } = propertyById(property)!;
  if (status === 'nearest' && result.coarse === null && !forParts(result))
    return `${why}: not every limit can be kept; without that it can, with ${name} ${without}`;
  return `${why}: ${name} ${here === without ? `${here} as without` : `${here}, without that ${without}`}`;
}

/** Null where no parts were asked for. */
export function partsWords({ blend, parts, objective }: Chosen, wording: Wording): PartsWords | null {
  if (parts === null) return null;
  if (!parts.found) {
    const lines = ['Nothing in this blend can be counted out in parts; it is weighed.'];
    return { by: null, numbers: '', lines };
  }
  const { system } = wording;
  const size =
    parts.by === 'mass'
      ? printQuantity(parts.part, 'mass', { system })
      : `${printQuantity(partOf(parts.part, system), 'volume', { system })} of loose stuff (${scoopsOfPart(parts.scoops!)} scoops)`;
  const nameOf = (id: string): string => blend.find((i) => i.material === id)?.name ?? id;
  const { property, weighed } = objective;
  const [here, without] = [weighed, parts.without].map((v) => printProperty(property, v, wording));
  const worst = Math.max(...parts.parts.map((p) => p.error ?? 0));
  return {
    by: parts.by === 'mass' ? 'by weight' : 'by scoop',
    numbers: parts.parts.map((p) => `${p.parts} ${p.name}`).join(' : '),
    lines: [
      `one part is ${size} for this batch`,
      ...(parts.apart.length === 0 ? [] : [`weigh beside them: ${parts.apart.map(nameOf).join(', ')}`]),
      here === without
        ? `whole numbers lose nothing that shows: ${here}`
        : `whole numbers: ${propertyById(property)!.name} ${here}, without them ${without}`,
      ...(worst === 0
        ? []
        : [
            `a scoop can be off by up to ${Math.round(100 * worst)} %, as loosely or densely as it lies; the chances count that. Weigh where you can.`,
          ]),
    ],
  };
}

/** Why a blend that exists is not weighed out (the scale, whole numbers, too few ingredients); empty: for none of these. */
export function notWeighedWords(
  result: Pick<ProposalResult, 'coarse' | 'parts' | 'limits' | 'conflict' | 'targets' | 'blend'>,
  wording: Wording,
): { readonly lead: string; readonly lines: readonly string[]; readonly after: string } | null {
  const { coarse, limits } = result;
  if (forParts(result)) {
    const lead = 'A blend exists, but none in whole-number parts so small keeps every limit.';
    return { lead, lines: [], after: '' };
  }
  if (coarse !== null) {
    const mass = (g: number): string => printQuantity(g, 'mass', { system: wording.system });
    return {
      lead: `A blend exists, but no rounding of it to ${mass(coarse.step)} keeps every limit. Too coarse for:`,
      lines: coarse.sides.map((s) => tooCoarseFor(s, coarse.step, result, wording)),
      after:
        coarse.stepThatWould === null
          ? 'No finer scale that was tried would do. Allow a little more on either side, or try a larger batch.'
          : `A scale that tells ${mass(coarse.stepThatWould)} would do, or a larger batch.`,
    };
  }
  if (limits === null || limits.without === null) return null;
  if (limits.ingredients === null) {
    const least = printQuantity(limits.leastDose, 'mass', { system: wording.system });
    return {
      lead: `A blend exists, but none with at least ${least} of each ingredient keeps every limit.`,
      lines: [],
      after: 'A finer scale with a smaller least dose, or a larger batch, makes room for the doses it takes.',
    };
  }
  const enough = limits.enough === null ? '' : `; ${limits.enough} would do`;
  return {
    lead: `A blend exists, but none of at most ${dry(limits.ingredients)} keeps every limit${enough}.`,
    lines: [],
    after: '',
  };
}

/** A limit that no rounding keeps, with its window where a scale that is so coarse cannot meet that by itself. */
function tooCoarseFor(
  { property, side, limit, value, missedBy }: NonNullable<ProposalResult['coarse']>['sides'][number],
  step: number,
  { targets, blend }: Pick<ProposalResult, 'targets' | 'blend'>,
  wording: Wording,
): string {
  const { name } = propertyById(property)!;
  const by = `missed by ${printMiss(property, missedBy, value, wording)}`;
  const { min, max } = targets.find((t) => t.property === property) ?? { min: null, max: null };
  const batch = blend.reduce((sum, i) => sum + i.batchGrams, 0);
  // A step moves what goes by weight by about its share of the batch.
  if (min === null || max === null || max - min > (Math.abs(max) * step) / batch) {
    const [low, high] = side === 'min' ? [limit, null] : [null, limit];
    return `${name} ${printWindow(property, low, high, wording)}: ${by}`;
  }
  const narrow = min === max ? 'no scale meets a single figure' : 'narrower than a step of this scale';
  return `${name} ${printWindow(property, min, max, wording)}: ${narrow}, ${by}`;
}

/** What became of a binder system that was not chosen; `property` is the objective's. */
export function systemWords(
  { outcome, value, why, reached = null }: Pick<System, 'outcome' | 'value' | 'why' | 'reached'>,
  property: string,
  wording: Wording,
): string {
  if (outcome === 'possible') return printTold({ property, value, why }, wording);
  if (outcome === 'behind' && reached !== null)
    return `left at ${printProperty(property, reached, wording)}: it fell behind`;
  return why ?? outcome;
}

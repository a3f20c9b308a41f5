import { propertyById } from '../blend/properties/index.js';
import { printQuantity } from '../units/print.js';
import { printMargin } from './margin-words.js';
import { printProperty, printWindow, significant, type Wording } from './print.js';
import type { ProposalResult } from './result-schema.js';
import { printTold } from './told-figures.js';

type System = ProposalResult['systems'][number];
type Chosen = Pick<ProposalResult, 'blend' | 'limits' | 'parts' | 'objective'>;

/** A blend counted out in whole-number parts, in words. */
export interface PartsWords {
  /** "by weight" or "by scoop"; null where nothing can be counted out, which `lines` then say. */
  readonly title: string | null;
  /** "4 sand : 2 cement : 1 water" */
  readonly numbers: string;
  readonly lines: readonly string[];
}

const dry = (n: number): string => (n === 1 ? '1 dry ingredient' : `${n} dry ingredients`);

/** What a limit on ingredients made of the blend; null where it made nothing of it. */
export function limitWords({ limits, objective }: Chosen, wording: Wording): string | null {
  if (limits === null || limits.without === null) return null;
  const { property, exact } = objective;
  const [here, without] = [exact, limits.without].map((v) => printProperty(property, v, wording));
  const why =
    limits.ingredients === null
      ? `with no ingredient below ${printQuantity(limits.leastDose, 'mass', { system: wording.system })}`
      : `with at most ${dry(limits.ingredients)}`;
  return `${why}: ${propertyById(property)!.name} ${here === without ? `${here} as without` : `${here}, without that ${without}`}`;
}

/** Null where no parts were asked for. */
export function partsWords({ blend, parts, objective }: Chosen, wording: Wording): PartsWords | null {
  if (parts === null) return null;
  if (!parts.found) {
    const lines = ['Nothing in this blend can be counted out in parts; it is weighed.'];
    return { title: null, numbers: '', lines };
  }
  const { system } = wording;
  const size =
    parts.by === 'mass'
      ? printQuantity(parts.part, 'mass', { system })
      : `${printQuantity(significant(parts.part, 3), 'volume', { system })} of loose stuff (${significant(parts.scoops!, 2)} scoops)`;
  const nameOf = (id: string): string => blend.find((i) => i.material === id)?.name ?? id;
  const { property, weighed } = objective;
  const [here, without] = [weighed, parts.without].map((v) => printProperty(property, v, wording));
  const worst = Math.max(...parts.parts.map((p) => p.error ?? 0));
  return {
    title: `in parts by ${parts.by === 'mass' ? 'weight' : 'scoop'}`,
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
  { coarse, parts, limits, conflict }: Pick<ProposalResult, 'coarse' | 'parts' | 'limits' | 'conflict'>,
  wording: Wording,
): { readonly lead: string; readonly lines: readonly string[]; readonly after: string } | null {
  if (parts?.found === true && conflict === null) {
    const lead = 'A blend exists, but none in whole-number parts so small keeps every limit.';
    return { lead, lines: [], after: '' };
  }
  if (coarse !== null) {
    const mass = (g: number): string => printQuantity(g, 'mass', { system: wording.system });
    return {
      lead: `A blend exists, but no rounding of it to ${mass(coarse.step)} keeps every limit. Too coarse for:`,
      lines: coarse.sides.map((s) => {
        const [min, max] = s.side === 'min' ? [s.limit, null] : [null, s.limit];
        const by = printMargin(s.property, s.missedBy, s.value, wording);
        return `${propertyById(s.property)!.name} ${printWindow(s.property, min, max, wording)}: missed by ${by}`;
      }),
      after: `${coarse.stepThatWould === null ? 'A' : `A scale that tells ${mass(coarse.stepThatWould)} would do, or a`} larger batch.`,
    };
  }
  if (limits === null || limits.without === null) return null;
  const many = limits.ingredients === null ? 'doses that can be weighed' : `at most ${dry(limits.ingredients)}`;
  const enough = limits.enough === null ? '' : `; ${limits.enough} would do`;
  return { lead: `A blend exists, but none of ${many} keeps every limit${enough}.`, lines: [], after: '' };
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

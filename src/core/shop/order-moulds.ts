import { type Bench, type Timetable, timetable, type Work, workingDaysUntilDue } from './order-timetable.js';

export interface ExtraMoulds {
  /** 'none': the moulds on hand do. 'buy': `extra` makes it. 'no-help': no number of moulds does. */
  readonly status: 'none' | 'buy' | 'no-help';
  /** Moulds to add, by work. */
  readonly extra: readonly number[];
  /** Timetable with them (the best there is, when none helps). */
  readonly timetable: Timetable;
  /**
   * True when fewer cannot do, by this planner: every smaller number was tried, by itself or in all its shares among the
   * sorts. False when the search stopped at its limit.
   */
  readonly fewest: boolean;
}

/** Plans tried for several sorts at once before the search settles for one more mould at a time. */
const MOST_PLANS = 600;

const withExtra = (works: readonly Work[], extra: readonly number[]): Work[] =>
  works.map((work, i) => ({ ...work, moulds: work.moulds + extra[i]! }));

/** Numbers of moulds tried one after another for one sort, from the least that could do upwards. */
const MOST_STEPS = 300;

/** One sort alone at the bench: the least it needs, whatever the others do. null: no number of moulds is enough. */
function leastAlone(work: Work, bench: Bench): { extra: number; sure: boolean } | null {
  const most = Math.max(0, work.pieces - work.moulds);
  const meets = (extra: number): boolean => timetable(withExtra([work], [extra]), bench).met;
  const first = Math.min(most, Math.max(0, leastByTurns(work, bench) - work.moulds));
  for (let extra = first; extra <= most && extra <= first + MOST_STEPS; extra++) {
    if (meets(extra)) return { extra, sure: true };
  }
  if (most <= first + MOST_STEPS || !meets(most)) return null;
  let [low, high] = [first + MOST_STEPS, most];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (meets(middle)) high = middle;
    else low = middle;
  }
  return { extra: high, sure: false };
}

/** No plan does with fewer: in a day a mould turns at most 1 + day/demoulding time times, if the maker did nothing else. */
function leastByTurns(work: Work, bench: Bench): number {
  const turns = 1 + Math.floor(bench.days.minutes / Math.max(1, work.demouldMinutes));
  return Math.ceil(work.pieces / (turns * Math.max(1, workingDaysUntilDue(bench))));
}

/**
 * Fewest moulds to buy so that the order is met. Each sort's least number by itself bounds it from below; from there the
 * total grows one by one, all shares among the sorts being tried.
 */
export function fewestExtraMoulds(works: readonly Work[], bench: Bench): ExtraMoulds {
  const none = works.map(() => 0);
  const now = timetable(works, bench);
  if (now.met) return { status: 'none', extra: none, timetable: now, fewest: true };
  const least: number[] = [];
  let sure = true;
  for (const work of works) {
    const alone = leastAlone(work, bench);
    if (alone === null) {
      const full = works.map((w) => Math.max(0, w.pieces - w.moulds));
      return { status: 'no-help', extra: none, timetable: timetable(withExtra(works, full), bench), fewest: true };
    }
    least.push(alone.extra);
    sure &&= alone.sure;
  }
  const roof = works.map((w) => Math.max(0, w.pieces - w.moulds));
  const spare = roof.reduce((s, n, i) => s + Math.max(0, n - least[i]!), 0);
  let tried = 0;
  for (let more = 0; more <= spare; more++) {
    for (const share of shares(more, works.length)) {
      const extra = least.map((n, i) => n + share[i]!);
      if (extra.some((n, i) => n > Math.max(roof[i]!, least[i]!))) continue;
      if (++tried > MOST_PLANS) return growOneByOne(works, bench, extra, roof);
      const plan = timetable(withExtra(works, extra), bench);
      if (plan.met) return { status: 'buy', extra, timetable: plan, fewest: sure };
    }
  }
  return { status: 'no-help', extra: none, timetable: timetable(withExtra(works, roof), bench), fewest: true };
}

/** All ways to share a number among so many sorts. */
function* shares(total: number, sorts: number): Generator<number[]> {
  if (sorts === 1) {
    yield [total];
    return;
  }
  for (let first = 0; first <= total; first++)
    for (const rest of shares(total - first, sorts - 1)) yield [first, ...rest];
}

/** Adds a mould where it brings the most pieces home in time, until the order is met or nothing is left to add. */
function growOneByOne(
  works: readonly Work[],
  bench: Bench,
  from: readonly number[],
  roof: readonly number[],
): ExtraMoulds {
  let extra = [...from];
  let plan = timetable(withExtra(works, extra), bench);
  while (!plan.met) {
    let best: { extra: number[]; plan: Timetable } | undefined;
    for (let i = 0; i < works.length; i++) {
      if (extra[i]! >= roof[i]!) continue;
      const next = extra.map((n, j) => (j === i ? n + 1 : n));
      const tried = timetable(withExtra(works, next), bench);
      if (best === undefined || onTime(tried) > onTime(best.plan)) best = { extra: next, plan: tried };
    }
    if (best === undefined) return { status: 'no-help', extra: works.map(() => 0), timetable: plan, fewest: false };
    ({ extra, plan } = best);
  }
  return { status: 'buy', extra, timetable: plan, fewest: false };
}

const onTime = (plan: Timetable): number => plan.onTime.reduce((s, n) => s + n, 0);

/** Cost against cost: buying moulds, or pouring a dearer blend that sets faster. */
export interface MouldsOrBlend {
  /** Money for the moulds. */
  readonly mouldsCost: number;
  /** Money the faster blend costs more over the whole order, and for any moulds it still needs. */
  readonly blendCost: number;
  /** Poured pieces from which the moulds are the cheaper way; 0 when they always are, Infinity when they never are. */
  readonly breakEven: number;
  readonly cheaper: 'moulds' | 'blend' | 'same';
}

/**
 * Moulds cost once, the faster blend costs more with every piece:
 *
 *   breakEven = (extra moulds x price - moulds the faster blend still needs x price) / (cost per piece, faster - now)
 *
 * perPiece: money a piece poured costs more with the faster blend. Source: closed form.
 */
export function mouldsOrBlend(
  mouldPrice: number,
  extra: number,
  extraWithBlend: number,
  perPiece: number,
  pieces: number,
): MouldsOrBlend {
  const mouldsCost = mouldPrice * extra;
  const still = mouldPrice * extraWithBlend;
  const blendCost = perPiece * pieces + still;
  const saved = mouldsCost - still;
  const breakEven = saved <= 0 ? 0 : perPiece <= 0 ? Number.POSITIVE_INFINITY : saved / perPiece;
  const cheaper = mouldsCost < blendCost ? 'moulds' : mouldsCost > blendCost ? 'blend' : 'same';
  return { mouldsCost, blendCost, breakEven, cheaper };
}

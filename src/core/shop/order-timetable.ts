import {
  closing,
  type Day,
  dayAt,
  isWorkingDay,
  nextWorkingMoment,
  opening,
  usableOn,
  type WorkingDays,
} from './order-calendar.js';

/** One sort of piece as the timetable sees it. Minutes count from the moment the water goes in. */
export interface Work {
  /** Pieces to pour, the breakage allowance included. */
  readonly pieces: number;
  readonly moulds: number;
  /** Most moulds that one bowl fills before it stiffens, and that the bowl holds. */
  readonly perBowl: number;
  /** Minutes of the maker to measure out and mix a bowl, and to fill one mould. */
  readonly mixMinutes: number;
  readonly fillMinutes: number;
  /** Minutes until the mould is free again. */
  readonly demouldMinutes: number;
  /** Minutes until the piece counts as ready (dry, or just demoulded). */
  readonly readyMinutes: number;
}

export interface Bench {
  readonly days: WorkingDays;
  readonly start: Day;
  readonly due: Day;
  /** Minutes between bowls: emptying moulds, washing up. */
  readonly betweenMinutes: number;
}

/** One bowl poured. */
export interface Bowl {
  /** Index of the work. */
  readonly work: number;
  /** Moment the water goes in, in minutes (see order-calendar). */
  readonly at: number;
  readonly pieces: number;
  readonly demouldAt: number;
  readonly readyAt: number;
}

export interface Timetable {
  readonly bowls: readonly Bowl[];
  /** Every piece was poured and is ready on the due day. */
  readonly met: boolean;
  /** Day on which the last piece is ready; Infinity when it never is, or when not every piece could be poured. */
  readonly lastReady: Day;
  /** Pieces that are ready on the due day, by work. */
  readonly onTime: readonly number[];
  /** Pieces that found no mould within the horizon (no mould, a bowl that holds none). */
  readonly unpoured: readonly number[];
}

/** No home order runs on longer than this; what is not poured by then is reported as not poured. */
const HORIZON_DAYS = 1500;

/** Which of the sorts that could be poured now goes first: the one with the smallest figure. */
type Urgency = (work: Work, left: number) => number;

/**
 * Two simple orders of work. By the latest day each may still be poured (earliest due date first), and by how much mould
 * time the rest still needs. Rules of scheduling practice (Jackson's rule for the first); neither is always the best,
 * so both are tried.
 */
const URGENCIES: readonly Urgency[] = [
  (work) => -work.readyMinutes,
  (work, left) => -(left / Math.max(1, work.moulds)) * work.demouldMinutes - work.readyMinutes / 1e6,
];

/**
 * Fills the days with bowls, one maker and one bowl at a time, never leaving a free mould idle while the maker is. A
 * bowl is begun only when mixing and pouring end before the working day does. A mould is free again once its demoulding
 * time has passed while the shop is open.
 */
export function timetable(works: readonly Work[], bench: Bench): Timetable {
  let best: Timetable | undefined;
  for (const urgency of works.length > 1 ? URGENCIES : URGENCIES.slice(0, 1)) {
    const tried = fill(works, bench, urgency);
    if (best === undefined || better(tried, best)) best = tried;
  }
  return best!;
}

const total = (counts: readonly number[]): number => counts.reduce((s, n) => s + n, 0);

function better(a: Timetable, b: Timetable): boolean {
  if (a.met !== b.met) return a.met;
  if (total(a.onTime) !== total(b.onTime)) return total(a.onTime) > total(b.onTime);
  return a.lastReady < b.lastReady;
}

function fill(works: readonly Work[], bench: Bench, urgency: Urgency): Timetable {
  const { days } = bench;
  const left = works.map((w) => (canPour(w, days) ? w.pieces : 0));
  const freeAt = works.map((w) => new Float64Array(Math.max(0, w.moulds)).fill(Number.NEGATIVE_INFINITY));
  const bowls: Bowl[] = [];
  const last = (bench.start + HORIZON_DAYS) * 1440;
  let now = nextWorkingMoment(days, opening(days, bench.start));
  while (now < last && total(left) > 0) {
    const choice = mostUrgent(works, left, freeAt, now, bench, urgency);
    if (choice === undefined) {
      now = nextMoment(works, left, freeAt, now, bench);
      continue;
    }
    const { work: w, pieces } = choice;
    const work = works[w]!;
    const demouldAt = now + work.demouldMinutes;
    bowls.push({ work: w, at: now, pieces, demouldAt, readyAt: readyAt(work, now, days) });
    let taken = 0;
    for (let m = 0; m < freeAt[w]!.length && taken < pieces; m++) {
      if (freeAt[w]![m]! > now) continue;
      freeAt[w]![m] = demouldAt;
      taken++;
    }
    left[w]! -= pieces;
    now = nextWorkingMoment(days, now + bowlMinutes(work, pieces) + bench.betweenMinutes);
  }
  return summary(works, bowls, bench);
}

/** A piece is ready when its time is up, and no sooner than somebody is there to take it out of its mould. */
function readyAt(work: Work, poured: number, days: WorkingDays): number {
  const ready = poured + work.readyMinutes;
  const free = poured + work.demouldMinutes;
  if (!Number.isFinite(ready)) return ready;
  const open = isWorkingDay(days, dayAt(free)) && free <= closing(days, dayAt(free));
  return open ? ready : Math.max(ready, nextWorkingMoment(days, free));
}

const bowlMinutes = (work: Work, pieces: number): number => work.mixMinutes + pieces * work.fillMinutes;

/** Whether a bowl of one piece fits at all. */
export const canPour = (work: Work, days: WorkingDays): boolean =>
  work.moulds > 0 && work.perBowl > 0 && bowlMinutes(work, 1) <= days.minutes;

function mostUrgent(
  works: readonly Work[],
  left: readonly number[],
  freeAt: readonly Float64Array[],
  now: number,
  bench: Bench,
  urgency: Urgency,
): { work: number; pieces: number } | undefined {
  const spare = closing(bench.days, dayAt(now)) - now;
  let best: { work: number; pieces: number; figure: number } | undefined;
  works.forEach((work, w) => {
    if (left[w]! <= 0) return;
    let free = 0;
    for (const at of freeAt[w]!) if (at <= now) free++;
    const inTime = Math.floor((spare - work.mixMinutes) / work.fillMinutes + 1e-9);
    const pieces = Math.min(free, work.perBowl, left[w]!, inTime);
    if (pieces < 1) return;
    const figure = urgency(work, left[w]!);
    if (best === undefined || figure < best.figure) best = { work: w, pieces, figure };
  });
  return best;
}

/** When something changes: the next mould comes free while the shop is open, else the next morning. */
function nextMoment(
  works: readonly Work[],
  left: readonly number[],
  freeAt: readonly Float64Array[],
  now: number,
  bench: Bench,
): number {
  let soonest = nextWorkingMoment(bench.days, closing(bench.days, dayAt(now)) + 1);
  works.forEach((_work, w) => {
    if (left[w]! <= 0) return;
    for (const at of freeAt[w]!) if (at > now && at < soonest) soonest = at;
  });
  return nextWorkingMoment(bench.days, soonest);
}

function summary(works: readonly Work[], bowls: readonly Bowl[], bench: Bench): Timetable {
  const poured = works.map(() => 0);
  const onTime = works.map(() => 0);
  let lastReady = Number.NEGATIVE_INFINITY;
  for (const bowl of bowls) {
    poured[bowl.work]! += bowl.pieces;
    const ready = usableOn(bench.days, bowl.readyAt);
    if (ready <= bench.due) onTime[bowl.work]! += bowl.pieces;
    lastReady = Math.max(lastReady, ready);
  }
  const unpoured = works.map((w, i) => w.pieces - poured[i]!);
  const met = works.every((w, i) => onTime[i]! >= w.pieces);
  return { bowls, met, lastReady: total(unpoured) > 0 ? Number.POSITIVE_INFINITY : lastReady, onTime, unpoured };
}

/** Working days from start to due, both included. */
export function workingDaysUntilDue(bench: Bench): number {
  let count = 0;
  for (let day = bench.start; day <= bench.due; day++) if (isWorkingDay(bench.days, day)) count++;
  return count;
}

/** Times every mould is filled in one working day, empty in the morning and nothing else being poured; 0: not even once. */
export function turnsADay(work: Work, bench: Bench): number {
  if (!canPour(work, bench.days)) return 0;
  const most = bench.days.minutes / Math.max(1, work.mixMinutes + work.fillMinutes) + 1;
  const plenty = { ...work, pieces: Math.ceil(most) * work.moulds };
  const { bowls } = timetable([plenty], { ...bench, due: bench.start });
  const first = dayAt(bowls[0]!.at);
  const poured = total(bowls.map((b) => (dayAt(b.at) === first ? b.pieces : 0)));
  return Math.floor(poured / work.moulds);
}

import { type World, worldOf } from '../blend/world.js';
import { type Place, placeAt, type Track, trackEnds } from './frontier-track.js';
import type { Aim } from './objective.js';
import type { Question } from './question.js';
import { openSystems } from './systems.js';

/** A blend that no other beats in both properties. Before rounding to the scale. */
export interface FrontierPoint {
  readonly of: number;
  readonly against: number;
  /** Binder system. */
  readonly system: string;
  /** g in one piece, one a material of the question. */
  readonly grams: readonly number[];
}

export interface Frontier {
  /** From the best `of` to the best `against`. One point: a single blend is best at both. None: nothing meets the brief. */
  readonly points: readonly FrontierPoint[];
  /** Blends found on the way that others beat in both, and so left out. */
  readonly dominated: number;
}

export interface FrontierOptions {
  /** Points to aim for; fewer where the frontier has gaps or is short. Default 33. */
  readonly points?: number;
  /** Told now and then how much is done, 0..1. */
  readonly progress?: (share: number) => void;
}

const POINTS = 33;
/** Share of the points that is set evenly; the rest goes where the gaps are widest. */
const EVENLY = 0.6;
/** Rounds in which gaps are filled, and how many of them heed only what is at least half as wide as the widest. */
const FILLS = 16;
const WIDEST_FILLS = 9;

/**
 * The blends that cannot be better in one property without being worse in the other, all targets and limits kept:
 * epsilon-constraint (Haimes, Lasdon and Wismer 1971, from memory) along each open binder system, each point settled from
 * its neighbour, then all systems together without what is dominated. The ends are the optima of either property, made
 * as good in the other as they can be.
 */
export function frontier(question: Question, of: Aim, against: Aim, options: FrontierOptions = {}): Frontier {
  const wanted = Math.max(2, options.points ?? POINTS);
  const world = worldOf(question);
  const ends = worthwhile(question, world, of, against);
  const found: Place[] = ends.flat();
  let kept = undominated(found);
  const told = (): void => options.progress?.(Math.min(1, kept.length / wanted));
  if (kept.length > 1) {
    const scale = scaleOf(kept);
    for (const [a, b] of ends) {
      sweep(a, b, scale, wanted, found);
      kept = undominated(found);
      told();
    }
    const tried = new Set<string>();
    for (let round = 0; round < FILLS && kept.length < wanted; round++) {
      const gaps = widestGaps(kept, scale, wanted - kept.length, round < WIDEST_FILLS ? 0.5 : 0, tried);
      if (gaps.length === 0) break;
      for (const { track, from, bound } of gaps) {
        const place = placeAt(track, from, bound);
        if (place !== null) found.push(place);
      }
      kept = undominated(found);
      told();
    }
  }
  options.progress?.(1);
  return {
    points: kept.map((p) => ({ of: p.of, against: p.against, system: p.track.system.id, grams: p.settled.grams })),
    dominated: found.length - kept.length,
  };
}

type Ends = readonly [Place, Place];

/** The ends of each open system's track, without those that lie behind another system's end as a whole. */
function worthwhile(question: Question, world: World, of: Aim, against: Aim): Ends[] {
  const all = openSystems(question, world).flatMap((system): Ends[] => {
    const ends = trackEnds({ question, world, system, of, against });
    return ends === null ? [] : [ends];
  });
  const behind = ([a, b]: Ends, place: Place): boolean =>
    atLeast(of, place.of, a.of) && atLeast(against, place.against, b.against);
  return all.filter((ends) => !all.some((other) => other !== ends && other.some((place) => behind(ends, place))));
}

const atLeast = ({ sense }: Aim, a: number, b: number): boolean => (sense === 'min' ? a <= b : a >= b);

/** A little above the share that settling lets a limit be missed by: less it cannot tell apart, and nobody can trade. */
const DUST = 2e-5;

/** From the best `of` to the best `against`, without what another place beats or equals. */
function undominated(places: readonly Place[]): Place[] {
  const [one] = places;
  if (one === undefined) return [];
  const { of, against } = one.track;
  const up = (aim: Aim, value: number) => (aim.sense === 'min' ? value : -value);
  const sorted = [...places].sort(
    (p, q) => up(of, p.of) - up(of, q.of) || up(against, p.against) - up(against, q.against),
  );
  const kept: Place[] = [];
  // The best `of` of those that came to be the last one kept.
  let anchor = Number.NEGATIVE_INFINITY;
  for (const place of sorted) {
    const last = kept.at(-1);
    const gain = last === undefined ? Number.POSITIVE_INFINITY : up(against, last.against) - up(against, place.against);
    const asGood = last !== undefined && up(of, place.of) - anchor <= DUST * Math.abs(place.of);
    if (asGood ? gain > 0 : gain > DUST * Math.abs(place.against)) {
      if (asGood) kept.pop();
      else anchor = up(of, place.of);
      kept.push(place);
    }
  }
  return kept;
}

/** Values on the scale of the property's own ratio, where a set time or a strength has even steps. */
interface Scale {
  readonly of: (value: number) => number;
  readonly against: (value: number) => number;
  /** The value of `against` at a place between two others, 0..1. */
  readonly between: (a: number, b: number, share: number) => number;
}

function scaleOf(kept: readonly Place[]): Scale {
  const [first, last] = [kept[0]!, kept.at(-1)!];
  const { world, of, against } = first.track;
  const link = ({ property }: Aim) => property.form(world, first.settled.state).link;
  const span = (aim: Aim, a: number, b: number) => {
    const { inverse } = link(aim);
    const [low, high] = [inverse(a), inverse(b)];
    return (value: number): number => (inverse(value) - low) / (high - low || 1);
  };
  const { inverse, of: outOf } = link(against);
  return {
    of: span(of, first.of, last.of),
    against: span(against, first.against, last.against),
    between: (a, b, share) => outOf(inverse(a) + share * (inverse(b) - inverse(a))),
  };
}

/**
 * Even steps in `against` from one end of a track to the other, each from the one before; then back, because a search from
 * the other side may come to a better valley.
 */
function sweep(a: Place, b: Place, scale: Scale, wanted: number, found: Place[]): void {
  const share = Math.abs(scale.against(b.against) - scale.against(a.against));
  const steps = Math.min(wanted - 1, Math.ceil(EVENLY * wanted * share));
  const bounds = Array.from({ length: Math.max(0, steps - 1) }, (_v, k) =>
    scale.between(a.against, b.against, (k + 1) / steps),
  );
  let from = a;
  const there = bounds.map((bound) => {
    const place = placeAt(a.track, [from], bound);
    if (place !== null) from = place;
    return place;
  });
  from = b;
  for (let k = bounds.length - 1; k >= 0; k--) {
    const place = placeAt(a.track, [from], bounds[k]!, there[k]!);
    if (place === null) continue;
    found.push(place);
    from = place;
  }
}

interface Gap {
  readonly track: Track;
  readonly from: readonly Place[];
  readonly bound: number;
}

/**
 * The widest gaps between neighbours, to be looked into half-way by the tracks on either side; none twice, and none below
 * a share of the widest.
 */
function widestGaps(kept: readonly Place[], scale: Scale, count: number, least: number, tried: Set<string>): Gap[] {
  const gaps = kept.slice(1).map((q, i) => {
    const p = kept[i]!;
    const width = Math.hypot(scale.of(q.of) - scale.of(p.of), scale.against(q.against) - scale.against(p.against));
    return { p, q, width };
  });
  const open: Gap[] = [];
  let widest = 0;
  for (const { p, q, width } of gaps.sort((a, b) => b.width - a.width)) {
    if (open.length >= count || width < least * widest) break;
    const bound = scale.between(p.against, q.against, 0.5);
    for (const from of p.track === q.track ? [[p, q]] : [[p], [q]]) {
      const { track } = from[0]!;
      const key = `${track.system.id} ${p.against} ${q.against}`;
      if (tried.has(key)) continue;
      tried.add(key);
      widest = Math.max(widest, width);
      open.push({ track, from, bound });
    }
  }
  return open;
}

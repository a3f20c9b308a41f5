import { type Box, halves, middleOf, tightenByReducedCost, wholeBox } from './boxes.js';
import { certifyPoint, type Optimum } from './certify.js';
import { type CheckedProgram, withBounds } from './checked-program.js';
import type { LadderAnswer } from './ladder.js';
import { NodeQueue, type OpenNode } from './node-queue.js';
import { PseudoCosts } from './pseudo-costs.js';
import type { Ended, Leaf, Searched, SearchOptions, SearchResult } from './search-types.js';
import { solveChecked } from './solve.js';

/** How far from a whole number still looks whole; what looks whole is solved again with the whole number fixed. */
const LOOKS_WHOLE = 1e-6;
/** Boxes without any point found so far in which rounding is tried. */
const ROUNDING_TRIES = 40;
const ROUNDINGS: readonly ((value: number) => number)[] = [
  Math.round,
  (value) => Math.ceil(value - LOOKS_WHOLE),
  (value) => Math.floor(value + LOOKS_WHOLE),
];

/**
 * Branch and bound on certified linear programs: Land and Doig, Econometrica 28 (1960) 497-520, with Dakin's
 * branching x <= floor, x >= ceiling, The Computer Journal 8 (1965) 250-255 (both from memory).
 * Best bound first, diving from each box into one of its halves until it closes. A box whose program could not be
 * certified is never closed on that account: it is split further, and if nothing is left to split, the search says so.
 */
export function search(program: CheckedProgram, integers: readonly number[], options: SearchOptions): SearchResult {
  const box = wholeBox(program, integers);
  if ('emptyColumn' in box) return { ...NOTHING_SEARCHED, emptyColumn: box.emptyColumn };
  return new Search(withBounds(program, box.lower, box.upper), integers, options).run();
}

const NOTHING_SEARCHED: Searched & Ended = {
  end: 'exhausted',
  best: undefined,
  bound: Number.POSITIVE_INFINITY,
  nodes: 0,
  programs: 0,
  mended: 0,
  pivots: 0,
  leaves: [],
};

/** The state of one search; the program's bounds of integer columns are whole already. */
class Search {
  readonly #open = new NodeQueue();
  readonly #guesses: PseudoCosts;
  readonly #leaves: Leaf[] = [];
  #best: { x: Float64Array; cost: number } | undefined;
  /** Lowest bound of the boxes closed by a bound, and of the boxes that could not be settled. */
  #closedBound = Number.POSITIVE_INFINITY;
  #unsettledBound = Number.POSITIVE_INFINITY;
  #nodes = 0;
  #programs = 0;
  #mended = 0;
  #pivots = 0;

  constructor(
    readonly program: CheckedProgram,
    readonly integers: readonly number[],
    readonly options: SearchOptions,
  ) {
    this.#guesses = new PseudoCosts(program.columnCount);
    if (options.start?.length === program.columnCount) this.#offer(options.start);
  }

  run(): SearchResult {
    const { lower, upper } = this.program;
    let node: OpenNode | undefined = { lower, upper, bound: Number.NEGATIVE_INFINITY, prices: undefined, depth: 0 };
    while (node !== undefined) {
      if (node.bound >= this.#cutoff() && node.prices !== undefined) {
        this.#closeByBound(node, node.bound, node.prices);
        node = this.#open.pop();
        continue;
      }
      const { nodeLimit, pivotLimit = Number.POSITIVE_INFINITY } = this.options;
      const worked = this.#nodes >= nodeLimit || this.#pivots >= pivotLimit;
      const stop = worked ? 'node-limit' : this.options.shouldStop() ? 'asked' : undefined;
      if (stop !== undefined) {
        this.#open.push(node);
        return { ...this.#found(), end: stop };
      }
      this.#nodes += 1;
      const answer = this.#solve(node.lower, node.upper);
      if (answer.status === 'unbounded') {
        const { point, ray } = answer;
        return { ...this.#found(), end: 'unbounded', bound: Number.NEGATIVE_INFINITY, direction: { point, ray } };
      }
      node = this.#settle(node, answer) ?? this.#open.pop();
    }
    return { ...this.#found(), end: this.#unsettledBound < this.#cutoff() ? 'uncertified' : 'exhausted' };
  }

  #solve(lower: Float64Array, upper: Float64Array): LadderAnswer {
    const answer = solveChecked(withBounds(this.program, lower, upper));
    this.#programs += 1;
    this.#pivots += answer.effort.pivots;
    if (answer.effort.rung > 0 && answer.status !== 'uncertified') this.#mended += 1;
    return answer;
  }

  /** Closes a box or splits it; gives the half to dive into. */
  #settle(node: OpenNode, answer: Exclude<LadderAnswer, { status: 'unbounded' }>): OpenNode | undefined {
    if (answer.status === 'infeasible') {
      this.#keep(node, 'infeasible', answer.rowProof);
      return undefined;
    }
    if (answer.status === 'uncertified') return this.#splitBlindly(node);
    const { optimum } = answer;
    this.#learn(node, optimum.cost);
    if (optimum.cost < this.#cutoff()) this.#lookForPoints(node, optimum.x);
    if (optimum.cost >= this.#cutoff()) {
      this.#closeByBound(node, optimum.cost, optimum.rowPrices);
      return undefined;
    }
    return this.#split(node, optimum);
  }

  /** Tries the whole numbers that the relaxation shows or suggests. */
  #lookForPoints(node: OpenNode, x: Float64Array): void {
    const nearest = this.#rounded(x, Math.round);
    if (this.integers.every((j) => Math.abs(x[j]! - nearest[j]!) <= LOOKS_WHOLE)) {
      if (!this.#offer(nearest)) this.#tryFixed(node, nearest);
    } else if (this.#nodes === 1 || (this.#best === undefined && this.#nodes <= ROUNDING_TRIES)) {
      for (const round of ROUNDINGS) this.#tryFixed(node, this.#rounded(x, round));
    }
  }

  #rounded(x: Float64Array, round: (value: number) => number): Float64Array {
    const rounded = x.slice();
    for (const j of this.integers) rounded[j] = round(x[j]!);
    return rounded;
  }

  /** Solves for the other columns with the integer ones fixed. */
  #tryFixed(node: OpenNode, whole: Float64Array): void {
    const lower = node.lower.slice();
    const upper = node.upper.slice();
    for (const j of this.integers) {
      lower[j] = Math.min(Math.max(whole[j]!, lower[j]!), upper[j]!);
      upper[j] = lower[j]!;
    }
    const answer = this.#solve(lower, upper);
    if (answer.status === 'optimal') this.#offer(answer.optimum.x);
  }

  /** Takes a point as the best so far if it holds, is whole where it must be, and is cheaper. */
  #offer(candidate: Float64Array): boolean {
    const x = certifyPoint(this.program, candidate);
    if (x === undefined || !this.integers.every((j) => Number.isInteger(x[j]!))) return false;
    const cost = x.reduce((sum, value, j) => sum + value * this.program.cost[j]!, 0);
    if (this.#best === undefined || cost < this.#best.cost) this.#best = { x, cost };
    return true;
  }

  /** A box whose bound reaches this holds nothing better worth looking for. */
  #cutoff(): number {
    if (this.#best === undefined) return Number.POSITIVE_INFINITY;
    return this.#best.cost - this.options.gap * Math.abs(this.#best.cost);
  }

  #closeByBound(box: OpenNode, bound: number, prices: Float64Array): void {
    this.#closedBound = Math.min(this.#closedBound, bound);
    this.#keep(box, 'bound', prices);
  }

  #keep({ lower, upper }: OpenNode, why: Leaf['why'], rows: Float64Array): void {
    if (this.options.keepLeaves) this.#leaves.push({ lower, upper, why, rows });
  }

  #learn(node: OpenNode, cost: number): void {
    if (node.branch === undefined) return;
    const { column, direction, distance } = node.branch;
    this.#guesses.learn(column, direction, distance, cost - node.bound);
  }

  #split(node: OpenNode, optimum: Optimum): OpenNode | undefined {
    const { x, cost, rowPrices } = optimum;
    const { depth } = node;
    const priced = ({ lower, upper }: Box): OpenNode => ({ lower, upper, bound: cost, prices: rowPrices, depth });
    const room = this.#cutoff() - cost;
    const box = tightenByReducedCost(node, this.integers, optimum, room, (slab) =>
      this.#closeByBound(priced(slab), cost + room, rowPrices),
    );
    // A column without room stands on its bounds, which are whole.
    const fractional = this.integers.filter((j) => Math.abs(x[j]! - Math.round(x[j]!)) > LOOKS_WHOLE);
    const inexact = fractional.length > 0 ? fractional : this.integers.filter((j) => !Number.isInteger(x[j]!));
    if (inexact.length === 0) return this.#splitBlindly(priced(box));
    const fractionOf = (j: number): number => x[j]! - Math.floor(x[j]!);
    const column = this.#guesses.choose(inexact, fractionOf);
    const fraction = fractionOf(column);
    const [down, up] = halves(priced(box), column, Math.floor(x[column]!));
    const low: OpenNode = Object.assign(down, { branch: { column, direction: 'down', distance: fraction } as const });
    const high: OpenNode = Object.assign(up, { branch: { column, direction: 'up', distance: 1 - fraction } as const });
    this.#open.push(fraction < 0.5 ? high : low);
    return fraction < 0.5 ? low : high;
  }

  /** Splits a box of which nothing is known but its bound. */
  #splitBlindly(node: OpenNode): OpenNode | undefined {
    const free = this.integers.filter((j) => node.lower[j]! < node.upper[j]!);
    const widest = (one: number, j: number): number =>
      node.upper[j]! - node.lower[j]! > node.upper[one]! - node.lower[one]! ? j : one;
    if (free.length === 0) {
      this.#unsettledBound = Math.min(this.#unsettledBound, node.bound);
      return undefined;
    }
    const column = free.reduce(widest);
    const [down, up] = halves(node, column, middleOf(node.lower[column]!, node.upper[column]!));
    this.#open.push(up);
    return down;
  }

  #found(): Searched {
    const best = this.#best;
    const open = Math.min(this.#open.lowestBound, this.#unsettledBound, this.#closedBound);
    const bound = best === undefined ? open : Math.min(open, best.cost);
    return {
      best,
      bound,
      nodes: this.#nodes,
      programs: this.#programs,
      mended: this.#mended,
      pivots: this.#pivots,
      leaves: this.#leaves,
    };
  }
}

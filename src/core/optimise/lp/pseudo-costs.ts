/**
 * What branching on each integer column has cost so far, a unit of fraction, downwards and upwards: the usual guess
 * of which branch will move the bound most (Benichou et al., Mathematical Programming 1 (1971) 76-94, from memory).
 */
export class PseudoCosts {
  readonly #sum: readonly [Float64Array, Float64Array];
  readonly #count: readonly [Float64Array, Float64Array];

  constructor(columnCount: number) {
    this.#sum = [new Float64Array(columnCount), new Float64Array(columnCount)];
    this.#count = [new Float64Array(columnCount), new Float64Array(columnCount)];
  }

  /** Notes that moving column by `distance` raised the cost by `rise`. */
  learn(column: number, direction: 'down' | 'up', distance: number, rise: number): void {
    const side = direction === 'down' ? 0 : 1;
    if (!(distance > 1e-9) || !Number.isFinite(rise)) return;
    this.#sum[side][column] = this.#sum[side][column]! + Math.max(0, rise) / distance;
    this.#count[side][column] = this.#count[side][column]! + 1;
  }

  /** The candidate whose weaker and stronger branch together promise most; ties go to the most fractional, then the first. */
  choose(candidates: readonly number[], fractionOf: (column: number) => number): number {
    const average = [this.#average(0), this.#average(1)] as const;
    let best = candidates[0]!;
    let bestScore = Number.NEGATIVE_INFINITY;
    for (const column of candidates) {
      const fraction = fractionOf(column);
      const down = this.#guess(column, 0, average[0]) * fraction;
      const up = this.#guess(column, 1, average[1]) * (1 - fraction);
      const score = Math.max(down, SMALL) * Math.max(up, SMALL) + SMALL * SMALL * fraction * (1 - fraction);
      if (score > bestScore) {
        best = column;
        bestScore = score;
      }
    }
    return best;
  }

  #guess(column: number, side: 0 | 1, average: number): number {
    const count = this.#count[side][column]!;
    return count === 0 ? average : this.#sum[side][column]! / count;
  }

  #average(side: 0 | 1): number {
    let total = 0;
    let columns = 0;
    this.#count[side].forEach((count, column) => {
      if (count === 0) return;
      total += this.#sum[side][column]! / count;
      columns += 1;
    });
    return columns === 0 ? 1 : total / columns;
  }
}

const SMALL = 1e-6;

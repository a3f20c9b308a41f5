/** A box of bounds still to be searched. */
export interface OpenNode {
  /** Bounds of all columns in the box. */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Proven: nothing in the box costs less. */
  readonly bound: number;
  /** The row prices that prove the bound; none at the root. */
  readonly prices: Float64Array | undefined;
  readonly depth: number;
  /** The branch that made the box: how far it moved its column from the relaxation's value. */
  readonly branch?: { readonly column: number; readonly direction: 'down' | 'up'; readonly distance: number };
}

/** Open boxes, the lowest bound first; among equals the deeper, then the older one (so the order is fixed). */
export class NodeQueue {
  readonly #heap: { readonly node: OpenNode; readonly age: number }[] = [];
  #age = 0;

  get size(): number {
    return this.#heap.length;
  }

  /** The lowest bound of all open boxes; Infinity when none is open. */
  get lowestBound(): number {
    return this.#heap[0]?.node.bound ?? Number.POSITIVE_INFINITY;
  }

  push(node: OpenNode): void {
    this.#heap.push({ node, age: this.#age++ });
    let at = this.#heap.length - 1;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (!this.#before(at, parent)) return;
      this.#swap(at, parent);
      at = parent;
    }
  }

  pop(): OpenNode | undefined {
    const top = this.#heap[0];
    const last = this.#heap.pop();
    if (this.#heap.length > 0) {
      this.#heap[0] = last!;
      this.#sink();
    }
    return top?.node;
  }

  #sink(): void {
    let at = 0;
    for (;;) {
      let first = at;
      for (const child of [2 * at + 1, 2 * at + 2]) {
        if (child < this.#heap.length && this.#before(child, first)) first = child;
      }
      if (first === at) return;
      this.#swap(at, first);
      at = first;
    }
  }

  #before(a: number, b: number): boolean {
    const one = this.#heap[a]!;
    const other = this.#heap[b]!;
    if (one.node.bound !== other.node.bound) return one.node.bound < other.node.bound;
    if (one.node.depth !== other.node.depth) return one.node.depth > other.node.depth;
    return one.age < other.age;
  }

  #swap(a: number, b: number): void {
    [this.#heap[a], this.#heap[b]] = [this.#heap[b]!, this.#heap[a]!];
  }
}

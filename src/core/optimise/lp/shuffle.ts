/**
 * A fixed shuffle of 0..length-1: Fisher-Yates driven by the mulberry32 generator (public domain). The same seed
 * gives the same order on every machine.
 */
export function shuffled(length: number, seed: number): number[] {
  const order = inOrder(length);
  let state = seed >>> 0;
  const random = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  for (let i = length - 1; i > 0; i--) {
    const k = Math.floor(random() * (i + 1));
    [order[i], order[k]] = [order[k]!, order[i]!];
  }
  return order;
}

export function inOrder(length: number): number[] {
  return Array.from({ length }, (_, i) => i);
}

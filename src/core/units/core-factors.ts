import { factorOf } from './engine.js';
import { KIND_INFO, spellings, unitOf } from './vocabulary.js';

/** Temperatures have an offset, shares no engine, and a density is two units. */
const WITHOUT: ReadonlySet<string> = new Set(['temperature', 'fraction', 'density']);

/**
 * The engine's factors between every unit and the core's unit of its kind, both ways: decimals in words by `from to`. The
 * build works them out, so that a command that reads a few prices need not build the engine.
 */
export function coreFactors(): Record<string, string> {
  const factors: Record<string, string> = {};
  for (const { dimension, core } of Object.values(KIND_INFO)) {
    if (WITHOUT.has(dimension)) continue;
    const inside = unitOf(core)!.engine;
    for (const word of spellings(dimension)) {
      const { engine } = unitOf(word)!;
      if (engine === inside) continue;
      factors[`${engine} ${inside}`] = factorOf(engine, inside);
      factors[`${inside} ${engine}`] = factorOf(inside, engine);
    }
  }
  return factors;
}

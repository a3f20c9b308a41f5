import { factorOf } from './engine.js';
import { printedTogether } from './print.js';
import { KIND_INFO, spellings, unitOf } from './vocabulary.js';

/** Temperatures have an offset, shares no engine, and a density is two units. */
const WITHOUT: ReadonlySet<string> = new Set(['temperature', 'fraction', 'density']);

/**
 * The engine's factors between every unit and the core's unit of its kind, and between the units that one kind is printed
 * in, both ways: decimals in words by `from to`. The build works them out, so that a command that reads a few prices and
 * prints a sheet need not build the engine.
 */
export function coreFactors(): Record<string, string> {
  const factors: Record<string, string> = {};
  const add = (from: string, to: string): void => {
    if (from !== to) factors[`${from} ${to}`] = factorOf(from, to);
  };
  for (const { dimension, core } of Object.values(KIND_INFO)) {
    if (WITHOUT.has(dimension)) continue;
    const inside = unitOf(core)!.engine;
    for (const word of spellings(dimension)) {
      const { engine } = unitOf(word)!;
      add(engine, inside);
      add(inside, engine);
    }
  }
  for (const words of printedTogether()) {
    const units = [...words].map((word) => unitOf(word)!).filter(({ dimension }) => !WITHOUT.has(dimension));
    for (const from of units) for (const to of units) add(from.engine, to.engine);
  }
  return factors;
}

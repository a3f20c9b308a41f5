import { printQuantity, type UnitSystem } from '../units/print.js';
import { significant, significantShown } from './print.js';
import type { IngredientResult, ProposalResult } from './result-schema.js';

/** What lies looser or denser than this share from scoop to scoop has no third figure. */
const LOOSE = 0.1;

const HAIR = 1e-9;

type Measured = Pick<IngredientResult, 'material' | 'litres' | 'scoops' | 'volumeError'>;
type Parts = ProposalResult['parts'] | undefined;

/** One part by volume [cm3] in three figures of the unit that is shown. */
export const partOf = (cm3: number, system: UnitSystem): number => significantShown(cm3, 3, 'volume', system);

/** How many parts by volume an ingredient is counted out in; null where it is not. */
const countOf = (material: string, parts: Parts): number | null =>
  parts?.by !== 'scoop' || !parts.found ? null : (parts.parts.find((p) => p.material === material)?.parts ?? null);

/**
 * The volume of an ingredient as measured out: as fine as it is known, rounded in the unit that is shown. What is counted out in parts is so many
 * times the part that is told.
 */
export function volumeWords({ material, litres, volumeError }: Measured, parts: Parts, system: UnitSystem): string {
  if (litres === null) return '–';
  const count = countOf(material, parts);
  if (count !== null) return printQuantity(count * partOf(parts!.part, system), 'volume', { system, figures: 4 });
  const figures = volumeError !== null && volumeError < LOOSE ? 3 : 2;
  return printQuantity(significantShown(1000 * litres, figures, 'volume', system), 'volume', { system });
}

/** Scoops that one part takes, as they are told. */
export const scoopsOfPart = (scoops: number): number => significant(scoops, 3);

/** Scoops of an ingredient. */
export function scoopsOf({ material, scoops }: Measured, parts: Parts): string {
  if (scoops === null) return '–';
  const count = countOf(material, parts);
  const value = count === null ? scoops : count * scoopsOfPart(parts!.scoops!);
  // Halves go up: of 1.45 a float is a little less.
  return value < 0.095 ? '<0.1' : (Math.round(10 * value + HAIR) / 10).toFixed(1);
}

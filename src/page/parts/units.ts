import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { type UnitSystem, wordsIn } from '../../core/index.js';

/** Units of the shop at hand: what its sheets are printed in. */
export const Units = createContext<UnitSystem>('metric');

/**
 * Puts words with marked quantities in those units: “⟦250 mL|8 fl oz⟧” (core/problems/marks.ts). What is typed is read in
 * either.
 */
export function useWords(): (marked: string) => string {
  const system = useContext(Units);
  return (marked) => wordsIn(marked, system);
}

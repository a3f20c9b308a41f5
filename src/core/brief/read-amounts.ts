import type { Material } from '../materials/schema.js';
import { densityAsMeasured } from '../materials/table.js';
import { gather } from '../problems/gather.js';
import { refuse, type Where } from '../problems/problem.js';
import { isNothing, parseAmount } from '../units/quantity.js';
import type { Shelf } from './shelf.js';

export interface Part {
  readonly material: Material;
  readonly grams: number;
}

/** A recipe's parts. `scaled` is false when the amounts are parts, so that only their proportion is known. */
export interface Amounts {
  readonly parts: readonly Part[];
  readonly scaled: boolean;
}

const isBare = (text: unknown): boolean =>
  typeof text === 'number' || (typeof text === 'string' && /^\s*[-+−]?[\d.,/½¼¾\s]+$/.test(text));

/**
 * Reads amounts: quantities with units, or bare parts whose basis is stated. Every problem is gathered.
 *
 * @throws InputProblems `basis-missing` for bare parts without a basis, `material-unknown`, `amount-not-positive`,
 * `material-density-missing` for a volume of a material whose loose density is not known.
 */
export function readAmounts(
  written: { readonly basis?: 'mass' | 'scoop' | undefined; readonly amounts: Readonly<Record<string, unknown>> },
  shelf: Shelf,
  path: string,
  at: (path: string) => Where,
): Amounts {
  const all = gather();
  const entries = Object.entries(written.amounts);
  const place = (word: string): Where => at(path === '' ? `amounts.${word}` : `${path}.amounts.${word}`);
  if (entries.length === 0) {
    refuse({
      code: 'field-missing',
      where: at(path === '' ? 'amounts' : `${path}.amounts`),
      expected: 'at least one material',
    });
  }
  // A zero is the wrong amount with a unit or without: it tells nothing of how the others are meant.
  const meant = entries.filter(([, amount]) => !(isBare(amount) && isNothing(amount)));
  const bare = meant.filter(([, amount]) => isBare(amount));
  const mixed = bare.length > 0 && bare.length < meant.length;
  if (mixed) {
    all.add({
      code: 'brief-contradicts',
      severity: 'error',
      where: place(bare[0]![0]),
      found: String(bare[0]![1]),
      expected: 'a unit, as the other amounts have one; or no units at all, and a basis',
    });
  }
  const scaled = bare.length === 0;
  if (!scaled && !mixed && written.basis === undefined) {
    all.add({
      code: 'basis-missing',
      severity: 'error',
      // The field is not there: the amounts that ask for it are the place to look.
      where: { ...at(path === '' ? 'amounts' : `${path}.amounts`), path: path === '' ? 'basis' : `${path}.basis` },
      expected: 'basis: mass, or basis: scoop (loose volume)',
      hint: 'one scoop of sand weighs twice a scoop of plaster, so parts mean nothing until this is said',
    });
  }
  const seen = new Map<string, string>();
  const parts: Part[] = [];
  for (const [word, amount] of entries) {
    const part = all.attempt((): Part => {
      const where = place(word);
      const material = shelf.find(word, where);
      const other = seen.get(material.id);
      if (other !== undefined) {
        refuse({ code: 'material-duplicate', where, found: `${other} and ${word}`, expected: 'each material once' });
      }
      seen.set(material.id, word);
      const unit = /^[-+−\d.,/½¼¾\s]+(scoop|part)s?$/i.exec(String(amount).trim())?.[1]?.toLowerCase();
      if (unit !== undefined) {
        refuse({
          code: 'unit-unknown',
          where,
          found: String(amount),
          expected: 'a mass or a volume; or a bare number for each material, and a basis',
          hint:
            unit === 'scoop'
              ? 'parts by loose volume are bare numbers with “basis: scoop” beside the amounts'
              : 'parts are bare numbers with “basis: mass” or “basis: scoop” beside the amounts',
        });
      }
      const assume = scaled ? {} : { assume: written.basis === 'scoop' ? 'mL' : 'g' };
      const read = parseAmount(amount, where, { positive: true, optional: true, ...assume });
      if ('grams' in read) return { material, grams: read.grams };
      const density = densityAsMeasured(material);
      if (density === undefined) {
        refuse({
          code: 'material-density-missing',
          where,
          found: `${String(amount)} of ${material.name}`,
          expected: 'a weight, because its loose density is not known',
        });
      }
      return { material, grams: read.cm3 * density };
    });
    if (part !== undefined) parts.push(part);
  }
  all.finish();
  return { parts, scaled };
}

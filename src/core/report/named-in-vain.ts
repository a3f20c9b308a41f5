import type { Brief } from '../brief/read-brief.js';
import type { Material } from '../materials/schema.js';
import { bannedWords, barredBy } from '../optimise/barred.js';
import { BINDER_SYSTEMS } from '../optimise/systems.js';
import type { Problem } from '../problems/problem.js';

/**
 * Notes on materials that the brief names and a blend of this binder system cannot have: sulfate beside a cement, what its row
 * bans from the service, and binders that a caution stops. Those that lost to another are told of with their systems.
 */
export function namedInVain(
  { question, named, leftOut }: Pick<Brief, 'question' | 'named' | 'leftOut'>,
  systemId: string,
  shelf: readonly Material[],
): Problem[] {
  const system = BINDER_SYSTEMS.find((s) => s.id === systemId)!;
  const hintOf = (material: Material): string | null => {
    const out = leftOut.find((l) => l.material === material.id);
    if (out !== undefined) {
      return `${out.why}; another binder that is named stays clear of that. One under “materials: also” is used all the same`;
    }
    const by = barredBy(question, system, material);
    if (by === 'sulfate') {
      return `it brings sulfate, and beside cement or lime that goes in only where its share is asked for, such as “doses: { ${material.id}: 1 % of binder }”; a caution may then say stop`;
    }
    return by === 'service' ? bannedWords(question.conditions.service) : null;
  };
  return [...named].flatMap(([id, where]): Problem[] => {
    const material = shelf.find((m) => m.id === id)!;
    const hint = hintOf(material);
    return hint === null ? [] : [{ code: 'brief-contradicts', severity: 'note', where, found: material.name, hint }];
  });
}

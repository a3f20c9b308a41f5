import type { Brief } from '../brief/read-brief.js';
import { barredBy } from '../optimise/barred.js';
import { BINDER_SYSTEMS } from '../optimise/systems.js';
import type { Problem } from '../problems/problem.js';

/**
 * Notes on materials that the brief names and a blend of this binder system cannot have: sulfate beside a cement, and what
 * its row bans from the service. Binders that lost to another are told of with their systems.
 */
export function namedInVain({ question, named }: Pick<Brief, 'question' | 'named'>, systemId: string): Problem[] {
  const system = BINDER_SYSTEMS.find((s) => s.id === systemId)!;
  return [...named].flatMap(([id, where]): Problem[] => {
    const material = question.materials.find((m) => m.id === id);
    const by = material === undefined ? null : barredBy(question, system, material);
    if (by !== 'sulfate' && by !== 'service') return [];
    const hint =
      by === 'sulfate'
        ? `it brings sulfate, and beside cement or lime that goes in only where its share is asked for, such as “doses: { ${id}: 1 % of binder }”; a caution may then say stop`
        : `its row in the table bans it from ${question.conditions.service} service`;
    return [{ code: 'brief-contradicts', severity: 'note', where, found: material!.name, hint }];
  });
}

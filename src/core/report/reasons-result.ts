import { propertyById } from '../blend/properties/index.js';
import { worldOf } from '../blend/world.js';
import { suits, UNPRICED } from '../brief/play.js';
import type { Brief } from '../brief/read-brief.js';
import type { Shelf } from '../brief/shelf.js';
import { stoppedIn } from '../brief/stopped.js';
import type { Material } from '../materials/schema.js';
import { collidingTargets } from '../optimise/colliding-targets.js';
import { missingMaterials } from '../optimise/missing-materials.js';
import { AIMS } from '../optimise/objective.js';
import type { Reasons } from '../optimise/reasons.js';
import type { Sureness } from '../optimise/sure.js';
import type { ReasonsResult, SurenessResult, WaysOutResult } from './reasons-schema.js';
import { toldNumber, toldWhy } from './told-figures.js';

const namedProperty = (id: string): { name: string; unit: string } => {
  const { name, unit } = propertyById(id)!;
  return { name, unit };
};

/** Materials that are out of play only for want of a price. */
export const unpricedOf = (brief: Brief, shelf: Shelf): Material[] =>
  brief.leftOut.flatMap(({ material, why }) => {
    const found = shelf.materials.find((m) => m.id === material);
    return found !== undefined && why === UNPRICED ? [found] : [];
  });

/** Names put to what holds a blend back. */
export function reasonsResult(brief: Brief, reasons: Reasons, shelf: Shelf): ReasonsResult {
  const nameOf = (id: string): string => shelf.materials.find((m) => m.id === id)!.name;
  return {
    property: AIMS[brief.question.objective].property.id,
    heldBack: reasons.heldBack.map((h) => ({ ...h, ...namedProperty(h.property) })),
    doses: reasons.doses.map((d) => ({ ...d, name: nameOf(d.material) })),
    stock: reasons.stock.map((s) => ({ ...s, name: nameOf(s.material) })),
    entries: [
      ...reasons.entries.map((e) => ({ ...e, name: nameOf(e.material), system: null })),
      ...reasons.binders.map((e) => ({ ...e, name: nameOf(e.material) })),
    ],
  };
}

export const surenessResult = (sureness: Sureness): SurenessResult => ({
  ...sureness,
  held: sureness.held.map((h) => ({ ...h, ...namedProperty(h.property) })),
});

/**
 * What would let a brief be met that nothing meets; null where a blend turns up after all. `nearest` is the binder system
 * of the nearest blend; `tell` is told before each part that may take long.
 */
export function waysOutResult(
  brief: Brief,
  shelf: Shelf,
  nearest: string,
  tell: (what: string) => void = () => {},
): WaysOutResult | null {
  const { question } = brief;
  tell('looking for the targets that collide');
  const colliding = collidingTargets(question, worldOf(question), nearest);
  if (colliding === null) return null;
  const stopped = stoppedIn(brief.setting.safety, shelf.shop.region);
  const out = brief.leftOut.flatMap(({ material, why }) => {
    const found = shelf.materials.find((m) => m.id === material);
    return found !== undefined && suits(found) && stopped(found) === null ? [{ material: found, why }] : [];
  });
  tell('looking for materials that would help');
  const { single, together } = missingMaterials(
    question,
    out.map((o) => o.material),
  );
  const named = (id: string) => {
    const { material, why } = out.find((o) => o.material.id === id)!;
    return { material: id, name: material.name, why };
  };
  return {
    colliding: colliding.map(({ without, ...c }) => {
      const reachable = toldNumber(c.property, c.reachable);
      const why = toldWhy(c.property, c.reachable);
      return {
        ...c,
        ...namedProperty(c.property),
        reachable,
        change: reachable === null ? null : Math.abs(reachable - c.limit),
        ...(why === null ? {} : { why }),
        ...(without === null ? {} : { without }),
      };
    }),
    materials: single.map((m) => ({ ...m, ...named(m.material) })),
    together: together.map(named),
  };
}

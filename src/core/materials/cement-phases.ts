import { bogue, type PotentialPhases } from '../science/bogue.js';
import { cementHeat } from '../science/heat.js';
import type { Figure } from './figure.js';
import type { Material } from './schema.js';

/** The oxide analysis of a cement's row as plain numbers, by the reading of its figures; null where it has none. */
export function readOxides(material: Material, read: (key: string, figure: Figure) => number) {
  const oxides = material.binder?.oxides;
  if (oxides === undefined) return null;
  const of = (name: keyof typeof oxides): number => {
    const figure = oxides[name];
    return figure === undefined ? 0 : Math.max(0, read(`oxides.${name}`, figure));
  };
  return {
    cao: of('cao'),
    sio2: of('sio2'),
    al2o3: of('al2o3'),
    fe2o3: of('fe2o3'),
    so3: of('so3'),
    freeLime: of('freeLime'),
    mgo: of('mgo'),
  };
}

/** What Bogue's equations make of an analysis; phases that come out negative are taken as none. */
export interface CementFromOxides extends PotentialPhases {
  /** J/g at full hydration. */
  readonly heat: number;
  /** Percent. */
  readonly so3: number;
}

export function cementFromOxides(oxides: NonNullable<ReturnType<typeof readOxides>>): CementFromOxides {
  const { aluminaRatio, ...phases } = bogue(oxides);
  const some = {
    c3s: Math.max(0, phases.c3s),
    c2s: Math.max(0, phases.c2s),
    c3a: Math.max(0, phases.c3a),
    c4af: Math.max(0, phases.c4af),
  };
  const { so3, freeLime, mgo } = oxides;
  return { ...some, aluminaRatio, so3, heat: cementHeat({ ...some, so3, freeLime, mgo }) };
}

/** C3A in percent of a cement: its row's, or by Bogue from its oxides; undefined when neither is given. */
export function c3aPercent(material: Material): number | undefined {
  const told = material.binder?.phases?.c3a?.value;
  if (told !== undefined) return told;
  const oxides = readOxides(material, (_key, figure) => figure.value);
  return oxides === null ? undefined : cementFromOxides(oxides).c3a;
}

import type { Told } from '../worker/told.js';
import { toneOf } from './tones.js';

/** One layer of the mould, with its share of the volume and of the mass. */
export interface Band {
  readonly key: string;
  readonly name: string;
  readonly kind: string;
  readonly materials: readonly string[];
  readonly tone: string;
  readonly volume: number;
  readonly mass: number;
}

/** Bottom first. Air has no mass. */
export function bandsOf(told: Told): Band[] {
  const grams = new Map(told.result.blend.map((i) => [i.material, i.pieceGrams]));
  const total = [...grams.values()].reduce((s, g) => s + g, 0);
  const seen = new Map<string, number>();
  return told.layers.map((layer) => {
    const nth = seen.get(layer.kind) ?? 0;
    seen.set(layer.kind, nth + 1);
    return {
      key: layer.materials.join('+') || layer.kind,
      name: layer.name,
      kind: layer.kind,
      materials: layer.materials,
      tone: toneOf(layer.kind, layer.materials, nth),
      volume: layer.share,
      mass: total > 0 ? layer.materials.reduce((s, id) => s + (grams.get(id) ?? 0), 0) / total : 0,
    };
  });
}

/** The tone of each material, for keys beside tables. */
export const tonesOf = (told: Told): ReadonlyMap<string, string> =>
  new Map(bandsOf(told).flatMap((b) => b.materials.map((id) => [id, b.tone] as const)));

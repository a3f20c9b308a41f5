import type { Material } from '../materials/schema.js';
import type { Service } from '../materials/words.js';
import { refuse } from '../problems/problem.js';
import type { SulfateVerdict } from '../science/sulfate.js';

/**
 * What a piece is for, or where it will be, as far as it changes the cautions. `candle`: a holder round a candle in a metal
 * cup of its own; `wax`: a vessel that holds the wax itself.
 */
export const USES = ['planter', 'candle', 'wax', 'food', 'body-cast', 'fire', 'outdoor', 'wall-hung'] as const;
export type Use = (typeof USES)[number];

/** Uses in which a piece takes up water for years, in frost too. */
export const NEVER_DRY: readonly Use[] = ['planter', 'outdoor'];

export const FINISHINGS = ['none', 'wet-sanding', 'dry-sanding'] as const;
export type Finishing = (typeof FINISHINGS)[number];

/** People who are more at risk and will be in the room. */
export const PEOPLE = ['child-present', 'pregnant', 'asthma'] as const;
export type Person = (typeof PEOPLE)[number];

export const MOULD_STUFFS = [
  'silicone',
  'plastic',
  'rubber',
  'steel',
  'aluminium',
  'wood',
  'plaster',
  'other',
] as const;
export type MouldStuff = (typeof MOULD_STUFFS)[number];

/** What the cautions use of the sulfate screen's verdict. */
export type SulfateOutcome = Pick<SulfateVerdict, 'verdict' | 'reasons' | 'so3' | 'limit'>;

/** Age of a cast against the time it needs to dry, both in days from mixing. */
export interface Dryness {
  readonly ageDays: number;
  readonly dryAfterDays: number;
}

/** All but the blend that the caution rules ask about; what is left out is taken as not known. */
export interface SafetyConditions {
  readonly service: Service;
  /** g, one fresh piece. */
  readonly pieceGrams?: number | null;
  /** g water per g plaster. */
  readonly waterToPlaster?: number | null;
  /** °C, upper bound of the temperature while setting. */
  readonly peakTemperature?: number | null;
  /** °C, likely peak inside the piece in a usual mould; told beside the bound, never in place of it. */
  readonly likelyPeak?: number | null;
  /** cm, thickest wall, as in the conditions of the blend. */
  readonly wall?: number | null;
  readonly uses?: readonly Use[];
  readonly finishing?: Finishing;
  readonly who?: readonly Person[];
  readonly dryness?: Dryness | null;
  readonly mouldStuff?: MouldStuff;
  /** A tool, insert or cup of bare aluminium touches the fresh mix. */
  readonly aluminiumParts?: boolean;
  /** °C of the room. */
  readonly room?: number | null;
  readonly sulfate?: SulfateOutcome | null;
}

/** One material of the blend, water left out. */
export interface Constituent {
  readonly material: Material;
  /** g in the batch, as weighed out. */
  readonly grams: number;
  /**
   * Fraction of the dry blend. Liquids count as weighed out over the dry mass of all, at most 1: that errs on the
   * high side, as the label limits for mixtures are used here as triggers.
   */
  readonly share: number;
}

/** What the caution rules look at. Built by `blendFacts`. */
export interface BlendFacts extends Required<SafetyConditions> {
  readonly constituents: readonly Constituent[];
  /** g, whole batch with its water. */
  readonly batchGrams: number;
  /** g, without water and the water in liquids. */
  readonly dryGrams: number;
}

/** A material and its grams in the batch; water is a material of kind `water`. */
export interface BlendPart {
  readonly material: Material;
  readonly grams: number;
}

/**
 * Gathers the facts of one batch. The same material named twice counts once with the sum; parts of 0 g are dropped.
 *
 * @throws InputProblems when a mass is negative or not a number.
 */
export function blendFacts(parts: readonly BlendPart[], conditions: SafetyConditions): BlendFacts {
  const merged = new Map<string, BlendPart>();
  for (const { material, grams } of parts) {
    if (!Number.isFinite(grams) || grams < 0) {
      refuse({ code: 'amount-not-positive', found: `${material.id}: ${grams} g`, expected: 'a mass of 0 g or more' });
    }
    if (grams > 0) merged.set(material.id, { material, grams: grams + (merged.get(material.id)?.grams ?? 0) });
  }
  const all = [...merged.values()];
  const dry = all.filter((p) => p.material.kind !== 'water');
  const dryGrams = dry.reduce((sum, p) => sum + p.grams * (p.material.solids?.value ?? 1), 0);
  return {
    constituents: dry.map((p) => ({ ...p, share: dryGrams > 0 ? Math.min(1, p.grams / dryGrams) : 1 })),
    batchGrams: all.reduce((sum, p) => sum + p.grams, 0),
    dryGrams,
    service: conditions.service,
    pieceGrams: conditions.pieceGrams ?? null,
    waterToPlaster: conditions.waterToPlaster ?? null,
    peakTemperature: conditions.peakTemperature ?? null,
    likelyPeak: conditions.likelyPeak ?? null,
    wall: conditions.wall ?? null,
    uses: conditions.uses ?? [],
    finishing: conditions.finishing ?? 'none',
    who: conditions.who ?? [],
    dryness: conditions.dryness ?? null,
    mouldStuff: conditions.mouldStuff ?? 'other',
    aluminiumParts: conditions.aluminiumParts ?? false,
    room: conditions.room ?? null,
    sulfate: conditions.sulfate ?? null,
  };
}

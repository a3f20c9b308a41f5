import type { Service } from '../materials/words.js';

/** How a mix is brought into the mould; decides the air that stays in it. */
export const POURS = ['poured', 'tapped', 'vibrated'] as const;
export type Pour = (typeof POURS)[number];

/** Everything about a piece that is not in the blend. */
export interface Conditions {
  /** cm³ that one piece fills; null when a batch is assessed by itself. */
  readonly volume: number | null;
  /** cm, thickness the water has to leave through. */
  readonly wall: number;
  /** cm, thickness of the plate that loses its heat as fast as the piece (science/heat.ts); as `wall` when absent. */
  readonly coolingWall?: number;
  /** cm, the thinnest wall where walls differ; as thick as `wall` when absent. */
  readonly thinnestWall?: number;
  /** Faces of the wall that the room's air reaches; 1 where the other is closed (glazed, sealed, on a board). Absent: 2. */
  readonly openFaces?: 1 | 2;
  /** km/h of air movement over the piece while it dries; absent: still air. */
  readonly wind?: number;
  readonly service: Service;
  readonly pour: Pour;
  /** °C of the room and of the mixing water. */
  readonly temperature: number;
  /** Relative humidity of the room, 0..1. */
  readonly humidity: number;
  /**
   * Days the piece is kept covered after demoulding before it may dry; null: as usual for the binder
   * (none for plaster and what by itself demoulds within six hours, three days for what takes twelve or more).
   */
  readonly coverDays: number | null;
  /** Age in days at which strength is asked for. */
  readonly strengthAge: number;
  /** Whole days after pouring whose weight is told too, 1 to LAST_DAY; absent: the usual ones alone. */
  readonly weighDays?: readonly number[];
  /** Share of each batch that is not cast (left in the bowl, spilt, failed). 0..<1, of what is mixed. */
  readonly waste: number;
}

export const DEFAULT_CONDITIONS: Conditions = {
  volume: null,
  wall: 1.2,
  service: 'dry-indoor',
  pour: 'poured',
  temperature: 20,
  humidity: 0.5,
  coverDays: null,
  strengthAge: 28,
  waste: 0,
};

import { type Conditions, DEFAULT_CONDITIONS } from '../blend/conditions.js';
import type { Gather } from '../problems/gather.js';
import type { Where } from '../problems/problem.js';
import type { SafetyConditions } from '../safety/facts.js';
import { parseQuantity } from '../units/quantity.js';
import type { QuantityKind } from '../units/vocabulary.js';
import { MOST_HUMIDITY, MOST_WASTE, ROOM_CELSIUS, ranges } from './ranges.js';
import { AIR_MOVEMENT, type WrittenBrief, type WrittenRecipe } from './schema.js';
import type { Shop } from './shelf.js';

/** What a brief and a recipe share: how and where the piece is cast, and who will be near. */
export interface Setting {
  readonly conditions: Conditions;
  readonly safety: Pick<SafetyConditions, 'service' | 'uses' | 'finishing' | 'who' | 'mouldStuff' | 'aluminiumParts'>;
}

type Written = Omit<WrittenBrief, 'mould' | 'objective' | 'batch'> | Omit<WrittenRecipe, 'amounts' | 'basis'>;

/** Reads the room, wall, pour, cover and service. The volume is added once the mould is known. */
export function readSetting(
  written: Written,
  waste: { readonly written: unknown; readonly path: string },
  shop: Shop,
  all: Gather,
  at: (path: string) => Where,
): Setting {
  const read = (text: unknown, kind: QuantityKind, path: string, otherwise: number, more: object = {}): number =>
    text === undefined ? otherwise : (all.attempt(() => parseQuantity(text, kind, at(path), more)) ?? otherwise);
  const { share, within } = ranges(all, at);
  const service = written.service ?? DEFAULT_CONDITIONS.service;
  const cover =
    written.cover === undefined ? null : within(read(written.cover, 'time', 'cover', 0) / 24, 'cover', 0, 3650, 'days');
  const length = (text: unknown, path: string, otherwise: number): number =>
    within(read(text, 'length', path, otherwise, { positive: true }), path, 0.05, 50, 'cm');
  const wall = length(written.wall, 'wall', DEFAULT_CONDITIONS.wall);
  const thinnest = written['thinnest-wall'];
  const faces = written['open-faces'];
  const air = written.room?.air;
  const weighDays = written['weigh-days'];
  const conditions: Conditions = {
    volume: null,
    wall,
    ...(thinnest === undefined ? {} : { thinnestWall: Math.min(wall, length(thinnest, 'thinnest-wall', wall)) }),
    ...(faces === undefined ? {} : { openFaces: faces }),
    ...(air === undefined ? {} : { wind: AIR_MOVEMENT[air] }),
    ...(weighDays === undefined ? {} : { weighDays }),
    service,
    pour: written.pour ?? DEFAULT_CONDITIONS.pour,
    temperature: within(
      read(written.room?.temperature, 'temperature', 'room.temperature', shop.temperature),
      'room.temperature',
      ROOM_CELSIUS.low,
      ROOM_CELSIUS.high,
      '°C',
    ),
    humidity: share(
      read(written.room?.humidity, 'fraction', 'room.humidity', shop.humidity, { assume: '%' }),
      'room.humidity',
      MOST_HUMIDITY,
    ),
    coverDays: cover,
    strengthAge: within(
      read(written['strength-age'], 'time', 'strength-age', 24 * 28) / 24,
      'strength-age',
      0.5,
      3650,
      'days',
    ),
    waste: share(read(waste.written, 'fraction', waste.path, shop.waste, { assume: '%' }), waste.path, MOST_WASTE),
  };
  return {
    conditions,
    safety: {
      service,
      uses: written.uses ?? [],
      finishing: written.finish ?? 'none',
      who: written.people ?? [],
      mouldStuff: written['mould-stuff'] ?? 'silicone',
      aluminiumParts: written['aluminium-parts'] ?? false,
    },
  };
}

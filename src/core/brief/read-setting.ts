import { type Conditions, DEFAULT_CONDITIONS } from '../blend/conditions.js';
import type { Gather } from '../problems/gather.js';
import type { Where } from '../problems/problem.js';
import type { SafetyConditions } from '../safety/facts.js';
import { parseQuantity } from '../units/quantity.js';
import type { QuantityKind } from '../units/vocabulary.js';
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
  waste: unknown,
  shop: Shop,
  all: Gather,
  at: (path: string) => Where,
): Setting {
  const read = (text: unknown, kind: QuantityKind, path: string, otherwise: number, more: object = {}): number =>
    text === undefined ? otherwise : (all.attempt(() => parseQuantity(text, kind, at(path), more)) ?? otherwise);
  const share = (value: number, path: string, most: number): number => {
    if (value >= 0 && value <= most) return value;
    all.add({
      code: 'field-out-of-range',
      severity: 'error',
      where: at(path),
      found: `${(value * 100).toPrecision(3)} %`,
      expected: `0 % to ${most * 100} %`,
    });
    return 0;
  };
  const within = (value: number, path: string, low: number, high: number, unit: string): number => {
    if (value < low || value > high) {
      all.add({
        code: 'field-out-of-range',
        severity: 'error',
        where: at(path),
        found: `${value.toPrecision(4)} ${unit}`,
        expected: `${low} to ${high} ${unit}`,
      });
    }
    return value;
  };
  const service = written.service ?? DEFAULT_CONDITIONS.service;
  const cover = written.cover === undefined ? null : read(written.cover, 'time', 'cover', 0) / 24;
  const length = (text: unknown, path: string, otherwise: number): number =>
    within(read(text, 'length', path, otherwise, { positive: true }), path, 0.05, 50, 'cm');
  const wall = length(written.wall, 'wall', DEFAULT_CONDITIONS.wall);
  const thinnest = written['thinnest-wall'];
  const faces = written['open-faces'];
  const air = written.room?.air;
  const conditions: Conditions = {
    volume: null,
    wall,
    ...(thinnest === undefined ? {} : { thinnestWall: Math.min(wall, length(thinnest, 'thinnest-wall', wall)) }),
    ...(faces === undefined ? {} : { openFaces: faces }),
    ...(air === undefined ? {} : { wind: AIR_MOVEMENT[air] }),
    service,
    pour: written.pour ?? DEFAULT_CONDITIONS.pour,
    temperature: within(
      read(written.room?.temperature, 'temperature', 'room.temperature', shop.temperature),
      'room.temperature',
      1,
      45,
      '°C',
    ),
    humidity: share(
      read(written.room?.humidity, 'fraction', 'room.humidity', shop.humidity, { assume: '%' }),
      'room.humidity',
      0.98,
    ),
    coverDays: cover,
    strengthAge: within(
      read(written['strength-age'], 'time', 'strength-age', 24 * 28) / 24,
      'strength-age',
      0.5,
      3650,
      'days',
    ),
    waste: share(read(waste, 'fraction', 'waste', shop.waste, { assume: '%' }), 'waste', 0.9),
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

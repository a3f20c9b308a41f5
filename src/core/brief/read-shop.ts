import { gather } from '../problems/gather.js';
import type { Where } from '../problems/problem.js';
import { parseAmount, parseQuantity } from '../units/quantity.js';
import { MOST_HUMIDITY, MOST_WASTE, ROOM_CELSIUS, ranges } from './ranges.js';
import { readCosts } from './read-costs.js';
import type { WrittenShop } from './schema.js';
import { DEFAULT_SHOP, type Shop } from './shelf.js';

/**
 * The shop in core units, with defaults for what is not written.
 * @throws InputProblems with everything that is wrong, each with its place.
 */
export function readShop(written: WrittenShop, at: (path: string) => Where): Shop {
  const all = gather();
  const read = (
    text: unknown,
    kind: 'mass' | 'volume' | 'temperature' | 'fraction',
    path: string,
    otherwise: number,
  ) => {
    if (text === undefined) return otherwise;
    const more = kind === 'fraction' ? { assume: '%' } : kind === 'temperature' ? {} : { positive: true };
    return all.attempt(() => parseQuantity(text, kind, at(path), more)) ?? otherwise;
  };
  const { share, within } = ranges(all, at);
  const { scale } = written;
  const { costs, currency } = readCosts(written, all, at);
  const shop: Shop = {
    currency: written.currency ?? currency,
    scale: {
      step: read(scale?.step, 'mass', 'scale.step', DEFAULT_SHOP.scale.step),
      fine:
        scale?.fine === undefined
          ? null
          : {
              step: read(scale.fine.step, 'mass', 'scale.fine.step', 0.1),
              most: read(scale.fine.most, 'mass', 'scale.fine.most', 200),
            },
    },
    scoop: read(written.scoop, 'volume', 'scoop', DEFAULT_SHOP.scoop),
    bowl:
      written.bowl === undefined
        ? DEFAULT_SHOP.bowl
        : (all.attempt(() => parseAmount(written.bowl, at('bowl'), { positive: true })) ?? null),
    work: {
      hours:
        written.hours === undefined
          ? null
          : (all.attempt(() => parseQuantity(written.hours, 'time', at('hours'), { positive: true, assume: 'h' })) ??
            null),
      weekdays: written.weekdays ?? null,
    },
    temperature: within(
      read(written.room?.temperature, 'temperature', 'room.temperature', DEFAULT_SHOP.temperature),
      'room.temperature',
      ROOM_CELSIUS.low,
      ROOM_CELSIUS.high,
      '°C',
    ),
    humidity: share(
      read(written.room?.humidity, 'fraction', 'room.humidity', DEFAULT_SHOP.humidity),
      'room.humidity',
      MOST_HUMIDITY,
    ),
    waste: share(read(written.waste, 'fraction', 'waste', DEFAULT_SHOP.waste), 'waste', MOST_WASTE),
    region: written.region ?? DEFAULT_SHOP.region,
    units: written.units ?? DEFAULT_SHOP.units,
    costs,
  };
  all.finish();
  return shop;
}

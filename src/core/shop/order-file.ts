import * as z from 'zod/mini';
import type { Shop } from '../brief/shelf.js';
import { WEEKDAYS } from '../brief/working-hours.js';
import { gather } from '../problems/gather.js';
import { refuse, type Where } from '../problems/problem.js';
import { told } from '../reading/told.js';
import { parseMoney } from '../units/money.js';
import { type Amount, parseAmount, parseQuantity } from '../units/quantity.js';
import type { QuantityKind } from '../units/vocabulary.js';
import { type Day, readDay, type WorkingDays } from './order-calendar.js';

const quantity = z.union([z.string(), z.number()]);

/** More than this is no bench any more, and the plan would run on. */
const MOST_PIECES = 5000;

const item = z.strictObject({
  title: z.optional(z.string()),
  brief: told(z.optional(z.string()), 'file name of a brief, from this file'),
  recipe: told(z.optional(z.string()), 'file name of a recipe with a mould, from this file'),
  pieces: told(z.int().check(z.positive(), z.maximum(MOST_PIECES)), 'pieces to deliver'),
  moulds: told(z.int().check(z.minimum(0), z.maximum(1000)), 'moulds on hand'),
  'mould-price': told(z.optional(quantity), "price of one more mould, such as 18 EUR; the shop's"),
  filling: told(z.optional(quantity), 'your minutes to fill one mould; 1 min when left out'),
  faster: told(
    z.optional(z.string()),
    'file name of a recipe or brief for the same mould that sets faster, to weigh against buying moulds',
  ),
});

export const orderSchema = z.strictObject({
  title: z.optional(z.string()),
  invented: told(z.optional(z.boolean()), 'true for a made-up example'),
  shop: told(z.optional(z.string()), 'file name of the shop, from this file'),
  start: told(z.string(), 'first day of work, such as 2026-03-02'),
  due: told(z.string(), 'day on which everything must be ready'),
  ready: told(z.optional(z.enum(['dry', 'demoulded'])), 'what counts as ready; dry when left out'),
  opens: told(z.optional(z.string()), 'clock at which the working day begins; 09:00 when left out'),
  hours: told(z.optional(quantity), "working hours a day; the shop's, or 8 h"),
  weekdays: told(z.optional(z.array(z.enum(WEEKDAYS)).check(z.minLength(1))), "the shop's, or monday to friday"),
  closed: told(z.optional(z.array(z.string())), 'days off, such as 2026-04-03'),
  bowl: told(z.optional(quantity), "the most you mix at once, a weight or a volume; the shop's, or no limit"),
  mixing: told(z.optional(quantity), 'your minutes from the water to the first mould; 4 min when left out'),
  between: told(z.optional(quantity), 'your minutes between bowls, emptying moulds and washing up; 15 min'),
  breakage: told(z.optional(quantity), "share of the poured pieces that break or are spoilt; the shop's, or 0"),
  keeps: told(z.optional(z.record(z.string(), quantity)), 'how long an opened pack of a material keeps'),
  items: z.array(item).check(z.minLength(1), z.maxLength(20)),
});

export type WrittenOrder = z.infer<typeof orderSchema>;

export interface OrderItem {
  readonly title: string | null;
  readonly file: string;
  readonly kind: 'brief' | 'recipe';
  readonly pieces: number;
  readonly moulds: number;
  /** Plain decimal string in the shop's currency; null: not given. */
  readonly mouldPrice: string | null;
  readonly fillMinutes: number;
  readonly faster: string | null;
  /** Where the item's file was named, and the faster one. */
  readonly where: Where;
  readonly fasterWhere: Where;
}

/** An order in core units. */
export interface Order {
  readonly title: string;
  readonly start: Day;
  readonly due: Day;
  readonly ready: 'dry' | 'demoulded';
  readonly days: WorkingDays;
  /** The most that is mixed at once; null: no limit. */
  readonly bowl: Amount | null;
  readonly mixMinutes: number;
  readonly betweenMinutes: number;
  /** Share of what is poured, 0..<1. */
  readonly breakage: number;
  /** Days an opened pack keeps, by the maker's word for the material, each with its place. */
  readonly keeps: readonly { readonly word: string; readonly days: number; readonly where: Where }[];
  readonly items: readonly OrderItem[];
}

const USUAL = { hours: 8, weekdays: ['mon', 'tue', 'wed', 'thu', 'fri'], mixing: 4, between: 15, filling: 1 } as const;

/**
 * A checked order in core units.
 * @throws InputProblems with everything that is wrong, each with its place.
 */
export function readOrder(written: WrittenOrder, shop: Shop, at: (path: string) => Where): Order {
  const all = gather();
  const read = (text: unknown, kind: QuantityKind, path: string, otherwise: number, more: object = {}): number =>
    text === undefined ? otherwise : (all.attempt(() => parseQuantity(text, kind, at(path), more)) ?? otherwise);
  const minutes = (text: unknown, path: string, otherwise: number) =>
    read(text, 'setTime', path, otherwise, { assume: 'min' });
  const start = all.attempt(() => readDay(written.start, at('start'))) ?? 0;
  const due = all.attempt(() => readDay(written.due, at('due'))) ?? start;
  if (due < start) {
    all.add({
      code: 'brief-contradicts',
      severity: 'error',
      where: at('due'),
      found: `${written.due}, with a start on ${written.start}`,
      expected: 'a due date that is not before the start',
    });
  }
  const opens = all.attempt(() => readClock(written.opens ?? '09:00', at('opens'))) ?? 540;
  const hours = read(written.hours, 'time', 'hours', shop.work.hours ?? USUAL.hours, { assume: 'h', positive: true });
  within(all, at('hours'), hours, 0.25, 24 - opens / 60, 'h');
  const breakage = read(written.breakage, 'fraction', 'breakage', shop.costs.breakage, { assume: '%' });
  within(all, at('breakage'), 100 * breakage, 0, 90, '%');
  const closed = (written.closed ?? []).flatMap((text, i) => {
    const day = all.attempt(() => readDay(text, at(`closed.${i}`)));
    return day === undefined ? [] : [day];
  });
  const bowl =
    written.bowl === undefined
      ? shop.bowl
      : (all.attempt(() => parseAmount(written.bowl, at('bowl'), { positive: true })) ?? null);
  const keeps = Object.entries(written.keeps ?? {}).map(([word, text]) => ({
    word,
    days: read(text, 'time', `keeps.${word}`, 24, { positive: true }) / 24,
    where: at(`keeps.${word}`),
  }));
  const items = written.items.map((entry, i) => readItem(entry, i, shop, all, at));
  const mixMinutes = minutes(written.mixing, 'mixing', USUAL.mixing);
  const betweenMinutes = minutes(written.between, 'between', USUAL.between);
  all.finish();
  return {
    title: written.title ?? 'untitled order',
    start,
    due,
    ready: written.ready ?? 'dry',
    days: {
      weekdays: new Set(written.weekdays ?? shop.work.weekdays ?? USUAL.weekdays),
      closed: new Set(closed),
      opens,
      minutes: Math.round(60 * hours),
    },
    bowl,
    mixMinutes,
    betweenMinutes,
    breakage,
    keeps,
    items: items.flatMap((entry) => (entry === undefined ? [] : [entry])),
  };
}

function within(all: ReturnType<typeof gather>, where: Where, value: number, low: number, high: number, unit: string) {
  if (value >= low && value <= high) return;
  const found = `⟦${Number(value.toPrecision(4))} ${unit}⟧`;
  all.add({ code: 'field-out-of-range', severity: 'error', where, found, expected: `⟦${low} to ${high} ${unit}⟧` });
}

function readItem(
  written: WrittenOrder['items'][number],
  i: number,
  shop: Shop,
  all: ReturnType<typeof gather>,
  at: (path: string) => Where,
): OrderItem | undefined {
  const path = `items.${i}`;
  const price = written['mould-price'];
  return all.attempt((): OrderItem => {
    if ((written.brief === undefined) === (written.recipe === undefined)) {
      const both = written.brief !== undefined;
      refuse({
        code: both ? 'brief-contradicts' : 'field-missing',
        where: at(path),
        ...(both ? { found: 'brief and recipe' } : {}),
        expected: 'one of brief or recipe, a file name from this file',
      });
    }
    const kind = written.brief === undefined ? 'recipe' : 'brief';
    const options = shop.currency === null ? {} : { currency: shop.currency };
    return {
      title: written.title ?? null,
      file: (written.brief ?? written.recipe)!,
      kind,
      pieces: written.pieces,
      moulds: written.moulds,
      mouldPrice:
        price === undefined
          ? (shop.costs.mould?.price ?? null)
          : parseMoney(price, at(`${path}.mould-price`), options).amount,
      fillMinutes:
        written.filling === undefined
          ? USUAL.filling
          : parseQuantity(written.filling, 'setTime', at(`${path}.filling`), { assume: 'min', positive: true }),
      faster: written.faster ?? null,
      where: at(`${path}.${kind}`),
      fasterWhere: at(`${path}.faster`),
    };
  });
}

/** Minutes after midnight of a clock such as 9:00 or 13:30. */
function readClock(text: string, where: Where): number {
  const parts = /^\s*(\d{1,2}):(\d{2})\s*$/.exec(text);
  const minute = parts === null ? Number.NaN : 60 * Number(parts[1]) + Number(parts[2]);
  if (parts !== null && Number(parts[2]) < 60 && minute < 1440) return minute;
  return refuse({ code: 'field-wrong-type', where, found: text, expected: 'a clock such as 09:00' });
}

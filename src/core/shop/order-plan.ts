import type { Material } from '../materials/schema.js';
import { isOverAYear, OVER_A_YEAR } from '../units/foretold.js';
import { type Day, dayAt, usableOn } from './order-calendar.js';
import type { Order, OrderItem } from './order-file.js';
import { type ExtraMoulds, fewestExtraMoulds, type MouldsOrBlend, mouldsOrBlend } from './order-moulds.js';
import { type PackPlan, packsFor } from './order-packs.js';
import type { LikelyTimes, Times } from './order-times.js';
import { type Bench, type Timetable, timetable, turnsADay, type Work } from './order-timetable.js';
import type { Pack } from './price-packs.js';

/** A blend as an order needs it. */
export interface OrderBlend {
  readonly title: string;
  /** g in one piece, without waste. */
  readonly parts: readonly { readonly material: Material; readonly grams: number }[];
  /** cm³ of one piece. */
  readonly volume: number;
  /** Share of what is mixed that is not cast. */
  readonly waste: number;
  /** Materials in one piece, waste included; null: no price for one of them. */
  readonly cost: number | null;
  readonly times: LikelyTimes;
}

export interface OrderedItem {
  readonly item: OrderItem;
  readonly blend: OrderBlend;
  /** A blend for the same mould that sets faster; asked for only when moulds would have to be bought. */
  readonly faster: () => OrderBlend | null;
}

/** What is for sale and on the shelf. */
export interface Store {
  readonly packs: (material: string) => readonly Pack[];
  readonly stock: (material: string) => number;
  /** Days an opened pack keeps; null: not said. */
  readonly keeps: (material: string) => number | null;
}

export interface ItemPlan {
  readonly pieces: number;
  /** Pieces to pour, the breakage allowance included. */
  readonly poured: number;
  readonly perBowl: number;
  /** What keeps a bowl from being larger. */
  readonly limitedBy: 'moulds' | 'bowl' | 'working time' | 'pieces';
  /** g of one full bowl, waste included. */
  readonly bowlGrams: number;
  /** Times a mould can be filled in a day, when nothing else is poured. */
  readonly turns: number;
  /** Why not one piece can be poured; null when it can. */
  readonly impossible: string | null;
  readonly lastPour: Day | null;
  readonly lastReady: Day | null;
}

export interface FasterBlend extends MouldsOrBlend {
  readonly item: number;
  readonly blend: OrderBlend;
  readonly extraMoulds: number;
  /** Moulds to buy all the same with the faster blend; null: it does not meet the order with any number. */
  readonly stillMoulds: number | null;
  readonly perPiece: number;
}

export interface MaterialPlan {
  readonly material: Material;
  readonly grams: number;
  readonly stock: number;
  readonly keeps: number | null;
  /** null: nothing to buy from, no pack in the price list. */
  readonly plan: PackPlan | null;
}

export interface OrderPlan {
  readonly items: readonly ItemPlan[];
  /** With the moulds on hand. */
  readonly timetable: Timetable;
  readonly moulds: ExtraMoulds;
  /** Sum of the moulds' prices; null where one is not given or none helps. */
  readonly mouldCost: number | null;
  readonly against: readonly FasterBlend[];
  /** The same order with the careful times, moulds on hand. */
  readonly careful: Timetable;
  readonly materials: readonly MaterialPlan[];
}

const benchOf = (order: Order): Bench => ({
  days: order.days,
  start: order.start,
  due: order.due,
  betweenMinutes: order.betweenMinutes,
});

/** Pieces to pour so that so many whole ones are left. */
export const pouredFor = (pieces: number, breakage: number): number => Math.ceil(pieces / (1 - breakage) - 1e-9);

const pieceGramsOf = (blend: OrderBlend): number => blend.parts.reduce((s, p) => s + p.grams, 0);

/** Most moulds of one bowl: what the bowl holds, and what is filled before the mix stiffens. */
function bowlOf(order: Order, item: OrderItem, blend: OrderBlend, times: Times) {
  const inBowl =
    order.bowl === null
      ? Number.POSITIVE_INFINITY
      : Math.floor(
          'cm3' in order.bowl
            ? (order.bowl.cm3 * (1 - blend.waste)) / blend.volume + 1e-9
            : (order.bowl.grams * (1 - blend.waste)) / pieceGramsOf(blend) + 1e-9,
        );
  const left = (times.working ?? 0) - order.mixMinutes;
  const inTime = Math.max(0, Math.floor(left / item.fillMinutes + 1e-9));
  return { inBowl, inTime };
}

/** No mould is filled with what does not leave it within the time that is told. */
const setsInTime = ({ demould }: Times): boolean => demould === null || !isOverAYear(demould, 'setTime');

/** One item as the timetable sees it. */
export function workOf(order: Order, item: OrderItem, blend: OrderBlend, times: Times): Work {
  const { inBowl, inTime } = bowlOf(order, item, blend, times);
  const demouldMinutes = times.demould ?? Number.POSITIVE_INFINITY;
  const pieces = pouredFor(item.pieces, order.breakage);
  return {
    pieces,
    moulds: item.moulds,
    perBowl: setsInTime(times) ? Math.min(inBowl, inTime, pieces) : 0,
    mixMinutes: order.mixMinutes,
    fillMinutes: item.fillMinutes,
    demouldMinutes,
    readyMinutes: order.ready === 'dry' ? Math.max(demouldMinutes, 60 * times.dry) : demouldMinutes,
  };
}

/**
 * The whole plan of an order: bowls by day, whether it can be met, the fewest moulds that would make it, moulds against a
 * faster blend, and the whole packs to buy.
 */
export function planOrder(order: Order, ordered: readonly OrderedItem[], store: Store): OrderPlan {
  const bench = benchOf(order);
  const works = ordered.map((o) => workOf(order, o.item, o.blend, o.blend.times));
  const moulds = fewestExtraMoulds(works, bench);
  const onHand = moulds.status === 'none' ? moulds.timetable : timetable(works, bench);
  const careful = timetable(
    ordered.map((o) => workOf(order, o.item, o.blend, o.blend.times.careful)),
    bench,
  );
  return {
    items: ordered.map((o, i) => itemPlan(order, o, i, works[i]!, onHand, bench)),
    timetable: onHand,
    moulds,
    mouldCost: moulds.status === 'no-help' ? null : mouldCost(ordered, moulds.extra),
    against: ordered.flatMap((_o, i) => against(order, ordered, works, moulds, i, bench)),
    careful,
    materials: materialsOf(ordered, moulds.status === 'buy' ? moulds.timetable : onHand, store),
  };
}

function mouldCost(ordered: readonly OrderedItem[], extra: readonly number[]): number | null {
  if (ordered.some((o, i) => extra[i]! > 0 && o.item.mouldPrice === null)) return null;
  return ordered.reduce((s, o, i) => s + extra[i]! * Number(o.item.mouldPrice ?? 0), 0);
}

function itemPlan(
  order: Order,
  { item, blend }: OrderedItem,
  index: number,
  work: Work,
  table: Timetable,
  bench: Bench,
): ItemPlan {
  const { inBowl, inTime } = bowlOf(order, item, blend, blend.times);
  const perBowl = Math.min(work.perBowl, Math.max(item.moulds, 0));
  const limitedBy =
    perBowl === inTime ? 'working time' : perBowl === inBowl ? 'bowl' : perBowl === item.moulds ? 'moulds' : 'pieces';
  const bowls = table.bowls.filter((b) => b.work === index);
  const impossible =
    blend.times.working === null
      ? 'nothing in the blend sets'
      : !setsInTime(blend.times)
        ? `it stays in its mould for ${OVER_A_YEAR}`
        : inTime < 1
          ? 'it stiffens before one mould is filled'
          : inBowl < 1
            ? 'the bowl does not hold the mix for one piece'
            : work.mixMinutes + work.fillMinutes > bench.days.minutes
              ? 'the working day is too short for one bowl'
              : item.moulds < 1
                ? 'there is no mould'
                : null;
  return {
    pieces: item.pieces,
    poured: work.pieces,
    perBowl,
    limitedBy,
    bowlGrams: (perBowl * pieceGramsOf(blend)) / (1 - blend.waste),
    turns: turnsADay(work, bench),
    impossible,
    lastPour: bowls.length === 0 ? null : dayAt(bowls.at(-1)!.at),
    lastReady: bowls.length === 0 ? null : lastReadyOf(work, bowls, table, index, bench),
  };
}

function lastReadyOf(work: Work, bowls: Timetable['bowls'], table: Timetable, index: number, bench: Bench): Day | null {
  if (table.unpoured[index]! > 0 || !Number.isFinite(work.readyMinutes)) return null;
  return Math.max(...bowls.map((b) => usableOn(bench.days, b.readyAt)));
}

/** For an item that needs moulds and has a faster blend: the money of both ways, the other items staying as planned. */
function against(
  order: Order,
  ordered: readonly OrderedItem[],
  works: readonly Work[],
  moulds: ExtraMoulds,
  index: number,
  bench: Bench,
): FasterBlend[] {
  const { item, blend } = ordered[index]!;
  const extraMoulds = moulds.status === 'buy' ? moulds.extra[index]! : 0;
  if (extraMoulds === 0 || blend.cost === null || item.mouldPrice === null) return [];
  const faster = ordered[index]!.faster();
  if (faster === null || faster.cost === null) return [];
  const swapped = works.map((w, i) => {
    if (i === index) return workOf(order, item, faster, faster.times);
    return { ...w, moulds: w.moulds + moulds.extra[i]! };
  });
  const instead = fewestExtraMoulds(swapped, bench);
  const others = instead.extra.some((n, i) => i !== index && n > 0);
  const still = instead.status === 'no-help' || others ? null : instead.extra[index]!;
  const perPiece = faster.cost - blend.cost;
  const price = Number(item.mouldPrice);
  const money = mouldsOrBlend(price, extraMoulds, still ?? 0, perPiece, works[index]!.pieces);
  return [{ ...money, item: index, blend: faster, extraMoulds, stillMoulds: still, perPiece }];
}

/** What the bowls take of each material, day by day, and the packs that give it. Water is not bought. */
function materialsOf(ordered: readonly OrderedItem[], table: Timetable, store: Store): MaterialPlan[] {
  const uses = new Map<string, { material: Material; byDay: Map<Day, number> }>();
  const take = (o: OrderedItem, day: Day, pieces: number): void => {
    for (const { material, grams } of o.blend.parts) {
      if (material.kind === 'water' || grams <= 0) continue;
      const entry = uses.get(material.id) ?? { material, byDay: new Map<Day, number>() };
      const used = (pieces * grams) / (1 - o.blend.waste);
      entry.byDay.set(day, (entry.byDay.get(day) ?? 0) + used);
      uses.set(material.id, entry);
    }
  };
  for (const bowl of table.bowls) take(ordered[bowl.work]!, dayAt(bowl.at), bowl.pieces);
  const end = Math.max(0, ...table.bowls.map((b) => dayAt(b.at)));
  // What no day has room for is bought all the same.
  table.unpoured.forEach((pieces, i) => {
    if (pieces > 0) take(ordered[i]!, end, pieces);
  });
  return [...uses.values()].map(({ material, byDay }): MaterialPlan => {
    const days = [...byDay].sort((a, b) => a[0] - b[0]).map(([day, grams]) => ({ day, grams }));
    const grams = days.reduce((s, d) => s + d.grams, 0);
    const [stock, packs, keeps] = [store.stock(material.id), store.packs(material.id), store.keeps(material.id)];
    const plan = packs.length === 0 && stock < grams ? null : packsFor({ uses: days, stock, packs, keeps });
    return { material, grams, stock, keeps, plan };
  });
}

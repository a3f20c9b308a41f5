import type { Shelf } from '../brief/shelf.js';
import { isGap } from '../materials/gap.js';
import type { Problem } from '../problems/problem.js';
import { equalBowls } from '../shop/card-bowls.js';
import { type Day, dayAt, isoDate, momentText, usableOn, weekdayOf } from '../shop/order-calendar.js';
import type { Order } from '../shop/order-file.js';
import type { ItemPlan, MaterialPlan, OrderedItem, OrderPlan } from '../shop/order-plan.js';
import type { Bowl, Timetable } from '../shop/order-timetable.js';
import { sum } from '../shop/sums.js';
import { cautionsTogether } from './cautions-together.js';
import { missedWarning } from './missed.js';
import type { OrderResult } from './order-schema.js';
import { problemResult } from './problem-result.js';
import type { AssessmentResult, ProposalResult } from './result-schema.js';
import { NEVER_DRY, toldHours, toldNumber, toldWhy } from './told-figures.js';
import { tooFineToWeigh } from './too-fine-to-weigh.js';

type Told = AssessmentResult | ProposalResult;

const dateOrNull = (day: Day | null): string | null => (day === null || !Number.isFinite(day) ? null : isoDate(day));
const finite = (value: number | null): number | null => (value === null || !Number.isFinite(value) ? null : value);
/** Money computed in floating point, to a hundredth of the smallest coin. */
const moneyText = (amount: number): string => String(Number(amount.toFixed(4)));

/** Gathers all that is told of an order. `told` holds each item's own proposal or assessment, in the order of the items. */
export function orderResult(
  order: Order,
  ordered: readonly OrderedItem[],
  told: readonly Told[],
  plan: OrderPlan,
  shelf: Shelf,
  invented: boolean,
): OrderResult {
  const titles = ordered.map((o) => o.item.title ?? o.blend.title);
  const days = (table: Timetable) => daysOf(table, order, ordered, titles);
  const { moulds } = plan;
  return {
    format: 'pourwright.order/1',
    title: order.title,
    invented,
    currency: shelf.shop.currency,
    start: isoDate(order.start),
    due: isoDate(order.due),
    ready: order.ready,
    met: plan.timetable.met,
    lastReady: dateOrNull(plan.timetable.lastReady),
    careful: { met: plan.careful.met, lastReady: dateOrNull(plan.careful.lastReady) },
    items: ordered.map((o, i) => itemOf(o, titles[i]!, plan.items[i]!, told[i]!)),
    days: days(plan.timetable),
    moulds: {
      status: moulds.status,
      fewest: moulds.fewest,
      buy: moulds.extra.flatMap((n, i) => (n > 0 ? [{ item: i, title: titles[i]!, moulds: n }] : [])),
      cost: plan.mouldCost === null ? null : moneyText(plan.mouldCost),
      lastReady: dateOrNull(moulds.timetable.lastReady),
      days: moulds.status === 'buy' ? days(moulds.timetable) : null,
    },
    against: plan.against.map((a) => ({
      item: a.item,
      title: a.blend.title,
      moulds: a.extraMoulds,
      stillMoulds: a.stillMoulds,
      mouldsCost: moneyText(a.mouldsCost),
      blendCost: moneyText(a.blendCost),
      perPiece: a.perPiece,
      breakEvenPieces: finite(a.breakEven),
      cheaper: a.cheaper,
    })),
    materials: plan.materials.map(materialOf),
    materialsCost: sum(plan.materials.flatMap((m) => (m.plan === null ? [] : [m.plan.cost]))).toFixed(),
    unpriced: plan.materials.filter((m) => m.plan === null).map((m) => m.material.name),
    ownFigures: [...new Map(told.flatMap((t) => t.ownFigures.map((f) => [f.figure, f]))).values()],
    warnings: told.flatMap((t, i) => [
      ...missedWarning(t).map((missed) => problemResult({ ...missed, where: { file: ordered[i]!.item.file } })),
      ...t.warnings,
      ...fineDoses(ordered[i]!, plan.items[i]!, shelf).map(problemResult),
    ]),
    cautions: cautionsTogether(told.map((t) => t.cautions)),
  };
}

/** Doses that a full bowl of an item has too little of for the scale, told with the item's file. */
function fineDoses({ item, blend }: OrderedItem, { perBowl, impossible }: ItemPlan, shelf: Shelf): Problem[] {
  if (impossible !== null) return [];
  const bowlGrams = blend.parts.map((p) => (perBowl * p.grams) / (1 - blend.waste));
  const fine = tooFineToWeigh(blend.parts, equalBowls(bowlGrams, 1, shelf.shop.scale));
  return fine.map((problem) => ({ ...problem, where: { file: item.file } }));
}

function itemOf({ item, blend }: OrderedItem, title: string, plan: ItemPlan, told: Told): OrderResult['items'][number] {
  const { times } = blend;
  const { working, demould, careful } = times;
  const minutes = (id: string, likely: number | null, slow: number | null) => ({
    likely: toldNumber(id, likely),
    careful: toldNumber(id, slow),
    why: likely === null ? 'nothing in the blend sets' : toldWhy(id, likely),
  });
  const days = ({ value, why }: ReturnType<typeof toldHours>) => ({ value: value === null ? null : value / 24, why });
  const dry = days(toldHours(times.dry, NEVER_DRY));
  return {
    title,
    file: item.file,
    pieces: plan.pieces,
    poured: plan.poured,
    moulds: item.moulds,
    perBowl: plan.perBowl,
    limitedBy: plan.limitedBy,
    bowlGrams: plan.bowlGrams,
    turns: plan.turns,
    workingMinutes: minutes('working-time', working, careful.working),
    demouldMinutes: minutes('demould-time', demould, careful.demould),
    dryDays: { likely: dry.value, careful: days(toldHours(careful.dry, NEVER_DRY)).value, why: dry.why },
    impossible: plan.impossible,
    lastPour: dateOrNull(plan.lastPour),
    lastReady: dateOrNull(plan.lastReady),
    costPerPiece: blend.cost,
    blend: told.blend,
  };
}

function daysOf(table: Timetable, order: Order, ordered: readonly OrderedItem[], titles: readonly string[]) {
  const pourOf = (bowl: Bowl) => {
    const { blend } = ordered[bowl.work]!;
    const piece = blend.parts.reduce((s, p) => s + p.grams, 0);
    return {
      at: momentText(bowl.at),
      item: bowl.work,
      title: titles[bowl.work]!,
      pieces: bowl.pieces,
      grams: (bowl.pieces * piece) / (1 - blend.waste),
      demouldAt: momentText(bowl.demouldAt),
      ready: dateOrNull(usableOn(order.days, bowl.readyAt)),
    };
  };
  const byDay = new Map<Day, Bowl[]>();
  for (const bowl of table.bowls) byDay.set(dayAt(bowl.at), [...(byDay.get(dayAt(bowl.at)) ?? []), bowl]);
  return [...byDay].map(([day, bowls]) => ({ date: isoDate(day), weekday: weekdayOf(day), pours: bowls.map(pourOf) }));
}

function materialOf({ material, grams, stock, keeps, plan }: MaterialPlan): OrderResult['materials'][number] {
  const shelfLife = material.shelfLife;
  return {
    material: material.id,
    name: material.name,
    grams,
    stock,
    keepsDays: keeps,
    buy:
      plan === null
        ? null
        : plan.buy.map(({ pack, count }) => ({ pack: pack.text, grams: pack.grams, price: pack.amount, count })),
    cost: plan === null ? null : plan.cost.toFixed(),
    leftover: plan === null ? null : plan.leftover,
    spoilt: plan === null ? null : plan.spoilt,
    proven: plan?.proven ?? false,
    shelfLifeMonths: shelfLife === undefined || isGap(shelfLife) ? null : shelfLife.value,
  };
}

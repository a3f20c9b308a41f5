import type { PostageStep } from '../brief/costs.js';
import type { Shop } from '../brief/shelf.js';
import { InputProblems } from '../problems/problem.js';
import { breakEven, type Contender, wholePackBreakEven } from '../shop/compare.js';
import { type BuildUp, buildUp, COST_GROUPS, coveringPrice, type PriceCase, type Sale, saleAt } from '../shop/price.js';
import { type Alternative, alternatives, levers, type Need } from '../shop/price-levers.js';
import { cheapestPacks, type Pack, packBreakEven, perGram } from '../shop/price-packs.js';
import { Sum, shownLines, toCoins } from '../shop/sums.js';
import { currencyDecimals } from '../units/currency.js';
import { missedWarning } from './missed.js';
import type { Mixed } from './mixed.js';
import type { PricedBlend, PriceResult, SaleResult } from './price-schema.js';
import { unpricedIn, unpricedResult } from './price-unpriced.js';
import { problemResult } from './problem-result.js';

export interface PriceOptions {
  /** Selling price to tell the earnings at; plain decimal. */
  readonly at?: string;
  /** Pieces of the run that whole packs are bought for. */
  readonly run?: number;
  /** Spent once for each blend before its first piece; plain decimals in the order of the blends. */
  readonly once?: readonly string[];
  /** The files the blends came from, in their order: named where something has no price. */
  readonly files?: readonly string[];
}

/** A run that makes a large pack worth thinking about; the result says which was taken. */
const USUAL_RUN = 100;

const text = (amount: Sum, decimals: number): string => toCoins(amount, decimals).toFixed(decimals);
const exactText = (amount: Sum): string => amount.toDecimalPlaces(8).toFixed();

/**
 * Prices blends side by side; those with an ingredient that the list does not price (water is free) are told beside them.
 * @throws InputProblems `price-missing` for every such ingredient where no blend is left.
 */
export function priceResult(
  all: readonly Mixed[],
  shop: Shop,
  packs: ReadonlyMap<string, readonly Pack[]>,
  options: PriceOptions = {},
): PriceResult {
  const [decimals, run] = [currencyDecimals(shop.currency), options.run ?? USUAL_RUN];
  const lacking = all.map((mixed, i) => unpricedIn(mixed, packs, options.files?.[i]));
  const priced = all.flatMap((_m, i) => (lacking[i]!.length === 0 ? [i] : []));
  if (priced.length === 0) throw new InputProblems(lacking.flat());
  const mixes = priced.map((i) => all[i]!);
  const cases = mixes.map((mixed) => caseOf(mixed, shop, packs));
  const built = cases.map(buildUp);
  const needs = cases.map((c, i) => needsOf(c, built[i]!, packs));
  const contenders = built.map(
    (b, i): Contender => ({
      built: b,
      once: new Sum(options.once?.[priced[i]!] ?? 0),
      needs: needs[i]!,
      breakage: shop.costs.breakage,
    }),
  );
  return {
    format: 'pourwright.price/1',
    currency: shop.currency,
    decimals,
    step: shop.scale.step,
    run,
    blends: mixes.map((mixed, i) => pricedBlend(mixed, cases[i]!, built[i]!, needs[i]!, { decimals, run, ...options })),
    comparison: mixes.length < 2 ? null : comparisonOf(contenders, decimals, run),
    ...(priced.length === all.length ? {} : { unpriced: unpricedResult(all, lacking) }),
  };
}

/** The pack a price goes by: the cheapest by the gram, as the `cost` of a blend counts it; of equal ones the smaller. */
const cheapestByTheGram = (packs: readonly Pack[]): Pack =>
  packs.reduce((best, pack) => {
    const order = perGram(pack).comparedTo(perGram(best));
    return order < 0 || (order === 0 && pack.grams < best.grams) ? pack : best;
  });

function caseOf(mixed: Mixed, shop: Shop, packs: ReadonlyMap<string, readonly Pack[]>): PriceCase {
  const dry = mixed.result.properties.find((p) => p.property === 'dry-weight');
  return {
    parts: mixed.parts
      .filter(({ material, pieceGrams }) => material.kind !== 'water' && pieceGrams > 0)
      .map(({ material, pieceGrams }) => ({
        material: material.id,
        name: material.name,
        colour: material.kind === 'pigment',
        pieceGrams,
        pack: cheapestByTheGram(packs.get(material.id)!),
      })),
    waste: mixed.input.conditions.waste,
    costs: shop.costs,
    dryWeight:
      dry === undefined || dry.value === null
        ? null
        : { value: dry.value, low: dry.low ?? dry.value, high: dry.high ?? dry.value },
    batchPieces: Math.max(1, Math.floor(mixed.pieces + 1e-6)),
  };
}

function needsOf(input: PriceCase, built: BuildUp, packs: ReadonlyMap<string, readonly Pack[]>): Need[] {
  return input.parts.map((part) => {
    const line = built.lines.find((l) => l.grams !== null && l.id.endsWith(`:${part.material}`))!;
    const grams = line.grams! / (1 - input.costs.breakage);
    return { material: part.material, name: part.name, grams, packs: packs.get(part.material)! };
  });
}

interface View extends PriceOptions {
  readonly decimals: number;
  readonly run: number;
}

function pricedBlend(mixed: Mixed, input: PriceCase, built: BuildUp, needs: readonly Need[], view: View): PricedBlend {
  const { decimals } = view;
  const { costs } = input;
  const shown = shownLines(
    built.lines.map((line) => line.amount),
    decimals,
  );
  const covering = coveringPrice(built, costs, decimals);
  const at = view.at === undefined ? null : new Sum(view.at);
  return {
    title: mixed.title,
    invented: mixed.invented,
    per: mixed.input.conditions.volume === null ? 'batch' : 'piece',
    batchPieces: input.batchPieces,
    waste: input.waste,
    breakage: costs.breakage,
    lines: built.lines.map((line, i) => ({
      id: line.id,
      group: line.group,
      name: line.name,
      amount: shown.lines[i]!.toFixed(decimals),
      exact: exactText(line.amount),
      grams: line.grams,
    })),
    total: shown.total.toFixed(decimals),
    exactTotal: exactText(built.total),
    complete: built.gaps.length === 0,
    gaps: [...built.gaps],
    hours: built.hours,
    posted: postedResult(built, decimals),
    covering: saleResult(saleAt(covering, built, costs, decimals), decimals),
    at: at === null ? null : saleResult(saleAt(at, built, costs, decimals), decimals),
    tenth: levers(input, at ?? covering).map(({ id, name, saves }) => ({ id, name, exact: exactText(saves) })),
    alternatives: alternatives(input, needs, view.run).map(alternativeResult),
    packs: needs.map((need) => packChoice(need, view)),
    warnings: [...missedWarning(mixed.result).map(problemResult), ...mixed.result.warnings],
    cautions: mixed.result.cautions,
  };
}

const saleResult = (sale: Sale, decimals: number): SaleResult => ({
  price: text(sale.price, decimals),
  fee: text(sale.fee, decimals),
  left: text(sale.left, decimals),
  margin: sale.margin,
  hourly: sale.hourly === null ? null : text(sale.hourly, decimals),
});

function postedResult(built: BuildUp, decimals: number): PricedBlend['posted'] {
  if (built.posted === null) return null;
  const { weight, step, heavier, lighter } = built.posted;
  const say = (s: PostageStep) => ({ upTo: s.upTo, price: text(new Sum(s.price), decimals) });
  return {
    weight,
    step: step === null ? null : say(step),
    heavier: heavier === null || heavier === 'beyond' ? heavier : say(heavier),
    lighter: lighter === null ? null : { step: say(lighter.step), grams: lighter.grams },
  };
}

function alternativeResult(alternative: Alternative): PricedBlend['alternatives'][number] {
  const exact = exactText(alternative.saves);
  switch (alternative.kind) {
    case 'packs':
      return { id: `packs:${alternative.material}`, name: `larger packs of ${alternative.name}`, exact };
    case 'lighter': {
      const { grams, upTo } = alternative;
      return { id: 'lighter', name: 'a lighter piece, for the next postage step', exact, grams, upTo };
    }
    case 'batch':
      return { id: 'batch', name: 'a batch twice the size', exact, pieces: alternative.pieces };
  }
}

function packChoice(need: Need, view: View): PricedBlend['packs'][number] {
  const { decimals, run } = view;
  const bought = cheapestPacks(need.grams * run, need.packs);
  const bySize = [...need.packs].sort((a, b) => a.grams - b.grams);
  const [small, large] = [bySize[0]!, bySize.at(-1)!];
  // Needs above a limit: the next whole piece beyond it.
  const piecesAbove = (grams: number | null): number | null =>
    grams === null ? null : Math.floor((grams / need.grams) * (1 + 1e-9)) + 1;
  const even = packBreakEven(small, large);
  return {
    material: need.material,
    name: need.name,
    pieceGrams: need.grams,
    packs: bySize.map((p) => ({ text: p.text, amount: text(new Sum(p.amount), decimals), grams: p.grams })),
    buy: bought.packs.map(({ pack, count }) => ({ text: pack.text, count })),
    cost: text(bought.cost, decimals),
    left: bought.left,
    proven: bought.proven,
    large:
      small === large
        ? null
        : { small: small.text, large: large.text, first: piecesAbove(even.first), always: piecesAbove(even.above) },
  };
}

function comparisonOf(contenders: readonly Contender[], decimals: number, run: number): PriceResult['comparison'] {
  const built = contenders.map((c) => c.built);
  const totals = built.map((b) => toCoins(b.total, decimals));
  const least = totals.reduce((a, b) => (b.lt(a) ? b : a));
  const columns = built.map((b) => groupCoins(b, decimals));
  return {
    groups: COST_GROUPS.map((group) => ({ group, amounts: columns.map((c) => c.get(group)!) })).filter((row) =>
      row.amounts.some((a) => Number(a) !== 0),
    ),
    totals: totals.map((t) => text(t, decimals)),
    once: contenders.map((c) => text(c.once, decimals)),
    cheapest: totals.flatMap((t, i) => (t.eq(least) ? [i] : [])),
    pairs: contenders.flatMap((a, i) =>
      contenders.slice(i + 1).map((b, k) => {
        const j = i + 1 + k;
        const index = (which: 0 | 1 | null): number | null => (which === null ? null : [i, j][which]!);
        const [gram, packs] = [breakEven(a, b), wholePackBreakEven(a, b, 10 * run, run)];
        return {
          a: i,
          b: j,
          byTheGram: { ...gram, cheaper: index(gram.cheaper) },
          wholePacks: { ...packs, cheaper: index(packs.cheaper), atRun: index(packs.atRun) },
        };
      }),
    ),
  };
}

/** Group sums of the shown lines, so that a column adds up to the total under it. */
function groupCoins(built: BuildUp, decimals: number): Map<(typeof COST_GROUPS)[number], string> {
  const shown = shownLines(
    built.lines.map((line) => line.amount),
    decimals,
  );
  return new Map(
    COST_GROUPS.map((group) => {
      const amounts = shown.lines.filter((_a, i) => built.lines[i]!.group === group);
      return [
        group,
        text(
          amounts.reduce((s, a) => s.plus(a), new Sum(0)),
          decimals,
        ),
      ];
    }),
  );
}

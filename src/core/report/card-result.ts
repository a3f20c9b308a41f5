import { evaluate } from '../blend/assess.js';
import { central, numbersOf } from '../blend/numbers.js';
import { WEIGHT_ON_DAY } from '../blend/properties/index.js';
import { freshVolume } from '../blend/properties/volume-and-weight.js';
import { worldOf } from '../blend/world.js';
import type { Shop } from '../brief/shelf.js';
import type { Problem } from '../problems/problem.js';
import type { CautionSet } from '../safety/caution.js';
import { shorten } from '../safety/cautions.js';
import { type Bowls, bowlCount, equalBowls, onStep, runningTotals } from '../shop/card-bowls.js';
import { type Method, methodFor } from '../shop/card-method.js';
import { type OrderStep, weighingOrder } from '../shop/card-order.js';
import { LEAST_SCOOP, scooped } from '../shop/card-scoops.js';
import { printQuantity } from '../units/print.js';
import type { Amount } from '../units/quantity.js';
import { layersOf } from './card-layers.js';
import type { CardAddition, CardResult, CardTimer, CardWeighing } from './card-schema.js';
import { timersOf } from './card-timers.js';
import { mixingText, vesselName, weighingText } from './card-words.js';
import { joinedBowls } from './joined-bowls.js';
import { judgedAnew, type Mixed } from './mixed.js';
import { mouldCount } from './mould-words.js';
import { problemResult } from './problem-result.js';
import { named } from './result.js';
import { tooFineToWeigh } from './too-fine-to-weigh.js';

export interface CardOptions {
  /** The largest bowl, in place of the shop's. */
  readonly bowl?: Amount;
}

/** Less working time than this, once mixed, is told. */
const LEAST_MINUTES = 2;

/** The weigh-out card of one bowl. */
export function cardResult(mixed: Mixed, shop: Shop, options: CardOptions = {}): CardResult {
  const { conditions } = mixed.input;
  const batchGrams = mixed.parts.map((p) => p.batchGrams);
  const world = worldOf(mixed.input);
  const { state, value } = evaluate(world, batchGrams);
  const limit = options.bowl ?? shop.bowl;
  const batch = { grams: batchGrams.reduce((s, g) => s + g, 0), cm3: value(freshVolume)! };
  const count = bowlCount(batch, mixed.pieces, limit);
  // A batch in one bowl is on the scale's steps already.
  const rounded = count === 1 ? undefined : mixed.inBowl?.(count);
  const bowls = equalBowls(batchGrams, count, shop.scale, rounded);
  const method = methodFor(state.amounts.families);
  const parts = mixed.parts.map((p, i) => ({ material: p.material, grams: bowls.grams[i]! }));
  const order = weighingOrder(parts, method);
  const bowl = evaluate(world, bowls.grams);
  const cm3 = bowl.value(freshVolume)!;
  // Of a mould full, as everywhere; without a mould of the batch.
  const share = conditions.volume === null ? count : conditions.volume / cm3;
  const judged = judgedAnew(
    mixed,
    bowls.grams.map((g) => g * share),
  );
  const fills = mixed.pieces / count;
  const timers = timersOf(mixed, method);
  return {
    format: 'pourwright.card/1',
    title: mixed.title,
    invented: mixed.invented,
    service: conditions.service,
    method: { id: method.id, name: method.name },
    bowls: {
      count,
      pieces: fills,
      waste: conditions.waste,
      grams: Number(bowls.grams.reduce((s, g) => s + g, 0).toFixed(6)),
      cm3,
      limit: limit === null ? null : printAmount(limit, shop),
    },
    mould: conditions.volume,
    scoop: shop.scoop,
    waterTemperature: conditions.temperature,
    weighing: weighings(mixed, shop, bowls, order, method),
    mixing: mixingSteps(mixed, method, order, fills),
    timers,
    expected: expectedWeights(mixed),
    layers: layersOf(world, bowls.grams, bowl.state.air),
    // The maker's own come first, as they were judged.
    targets: judged.map((v, i) => ({ ...named(v), kind: i < mixed.targets.length ? 'target' : 'standing' })),
    met: judged.every((v) => v.met),
    warnings: toldOnce(mixed.result.warnings, warningsOf(mixed, bowls, fills, timers).map(problemResult)),
    cautions: mutable(shorten(mixed.result.cautions as CautionSet)),
  };
}

type Warnings = CardResult['warnings'];

/** Where the card has reckoned what mixing leaves of the working time, that it is short need not be told besides. */
const toldOnce = (of: Warnings, own: Warnings): Warnings => [
  ...of.filter((w) => w.code !== 'recipe-hurried' || !own.some((o) => o.code === w.code)),
  ...own,
];

const mutable = (set: ReturnType<typeof shorten>): CardResult['cautions'] => ({
  ...set,
  cautions: [...set.cautions],
  firstAid: [...set.firstAid],
});

const printAmount = (amount: Amount, { units }: Shop): string =>
  'grams' in amount
    ? printQuantity(amount.grams, 'mass', { system: units })
    : printQuantity(amount.cm3, 'volume', { system: units });

/** g of the mixing water that dry light grains drink; they get it beforehand, so that they do not take it from the paste. */
function drunkBy(mixed: Mixed, bowls: Bowls): number {
  return mixed.parts.reduce((s, { material }, i) => {
    if (material.kind !== 'light-aggregate') return s;
    return s + Math.max(0, -numbersOf(material, central).freeWater) * bowls.grams[i]!;
  }, 0);
}

function weighings(
  mixed: Mixed,
  shop: Shop,
  bowls: Bowls,
  order: readonly OrderStep[],
  method: Method,
): CardWeighing[] {
  const water = mixed.parts.findIndex((p) => p.material.kind === 'water');
  const allWater = water < 0 ? 0 : bowls.grams[water]!;
  const wetting = water < 0 ? 0 : onStep(Math.min(drunkBy(mixed, bowls), allWater / 2), bowls.steps[water]!);
  const addition = (i: number, grams: number): CardAddition => {
    const { material } = mixed.parts[i]!;
    const volume = scooped(material, grams, shop.scoop);
    return {
      material: material.id,
      name: material.name,
      grams,
      step: bowls.steps[i]!,
      apart: bowls.apart[i]!,
      running: 0,
      cm3: volume?.cm3 ?? null,
      scoops:
        volume === null || volume.scoops < LEAST_SCOOP
          ? null
          : { value: volume.scoops, least: volume.least, most: volume.most, error: volume.error },
    };
  };
  const steps = order.map((step): CardWeighing => {
    const own = step.parts.map((i) =>
      addition(i, i === water ? Number((bowls.grams[i]! - wetting).toFixed(6)) : bowls.grams[i]!),
    );
    return {
      id: step.id,
      vessel: step.vessel,
      vesselName: vesselName(step.vessel, method),
      scaleStep: 0,
      text: weighingText(step.id, method),
      additions: step.id === 'wet' && wetting > 0 ? [...own, addition(water, wetting)] : own,
    };
  });
  return withRunning(steps);
}

/** Fills in what the scale under each vessel reads: the coarser one, where some of what goes in was weighed apart. */
function withRunning(steps: readonly CardWeighing[]): CardWeighing[] {
  const vessels = [...new Set(steps.map((s) => s.vessel))].map((vessel) => {
    const inside = steps.filter((s) => s.vessel === vessel).flatMap((s) => s.additions);
    const scaleStep = Math.max(...inside.map((a) => a.step));
    const mixed = inside.some((a) => a.step < scaleStep);
    const amounts = inside.map((a) => a.grams);
    return [vessel, { scaleStep, totals: runningTotals(amounts, scaleStep, mixed) }] as const;
  });
  const found = new Map(vessels);
  return steps.map((step) => {
    const { scaleStep, totals } = found.get(step.vessel)!;
    return { ...step, scaleStep, additions: step.additions.map((a) => ({ ...a, running: totals.shift()! })) };
  });
}

function mixingSteps(mixed: Mixed, method: Method, order: readonly OrderStep[], fills: number): CardResult['mixing'] {
  const has = (vessel: OrderStep['vessel']): boolean => order.some((step) => step.vessel === vessel);
  const { volume, pour } = mixed.input.conditions;
  const filled = volume === null ? '' : ` One bowl fills ${fills === 1 ? 'one mould' : mouldCount(fills)}.`;
  const steps: [CardResult['mixing'][number]['id'], number | null, boolean][] = [
    ['join', method.join, true],
    ['soak', method.soak, method.soak > 0],
    ['mix', method.mix, true],
    ['rest', method.rest, method.rest > 0],
    ['mix-again', method.mixAgain, method.mixAgain > 0],
    ['grains', null, has('grains')],
    ['fibres', null, has('fibres')],
    ['pour', null, true],
  ];
  return steps
    .filter(([, , there]) => there)
    .map(([id, minutes]) => ({ id, minutes, text: mixingText(id, method, pour, filled) }));
}

/** Weights of one piece to set beside the maker's own. */
function expectedWeights(mixed: Mixed): CardResult['expected'] {
  if (mixed.input.conditions.volume === null) return [];
  const weighed = (id: string) => id === 'demould-weight' || id === 'dry-weight' || WEIGHT_ON_DAY.test(id);
  return mixed.result.properties.flatMap(({ property: id, name, value }) =>
    weighed(id) && value !== null ? [{ property: id, name, grams: value }] : [],
  );
}

function warningsOf(mixed: Mixed, bowls: Bowls, fills: number, timers: readonly CardTimer[]): Problem[] {
  const minutes = (id: CardTimer['id']): number | null => timers.find((t) => t.id === id)?.value ?? null;
  const joined = mixed.input.conditions.volume === null ? [] : joinedBowls(bowls.count, fills, minutes('pour'));
  const warnings = [...joined, ...tooFineToWeigh(mixed.parts, bowls)];
  const left = minutes('left');
  if (left !== null && left < LEAST_MINUTES) {
    warnings.push({
      code: 'recipe-hurried',
      severity: 'warning',
      found: `${Number(left.toPrecision(2))} min of working time left once it is mixed`,
      hint: 'too little to pour: slow the set down, or have everything ready and mix for less time',
    });
  }
  return warnings;
}

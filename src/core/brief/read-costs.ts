import type { Gather } from '../problems/gather.js';
import { refuse, type Where } from '../problems/problem.js';
import { type Money, oneCurrency, parseMoney, parsePrice } from '../units/money.js';
import { parseAmount, parseQuantity } from '../units/quantity.js';
import { type Costs, NO_COSTS, type PostageStep } from './costs.js';
import type { WrittenShop } from './schema.js';

/**
 * The price inputs of a shop in core units; money stays decimal text. Problems go to `all`: money and quantity problems,
 * field-out-of-range for shares, unit-wrong-kind for a sealer sold by weight and used by volume, field-duplicate for
 * two postage steps of one weight, currency-mixed. `currency` is the one the sums name, if any names one.
 */
export function readCosts(
  written: Pick<
    WrittenShop,
    'labour' | 'sealer' | 'mould' | 'packing' | 'postage' | 'fee' | 'margin' | 'breakage' | 'currency'
  >,
  all: Gather,
  at: (path: string) => Where,
): { readonly costs: Costs; readonly currency: string | null } {
  const currency = written.currency === undefined ? {} : { currency: written.currency };
  const named: Money[] = [];
  const noted = <M extends Money>(sum: M): M => {
    named.push(sum);
    return sum;
  };
  const money = (input: unknown, path: string): string =>
    input === undefined ? '0' : (all.attempt(() => noted(parseMoney(input, at(path), currency)).amount) ?? '0');
  const minutes = (input: unknown, path: string): number =>
    input === undefined ? 0 : (all.attempt(() => parseQuantity(input, 'setTime', at(path), { assume: 'min' })) ?? 0);
  const share = (input: unknown, path: string): number => {
    if (input === undefined) return 0;
    return (
      all.attempt(() => {
        const value = parseQuantity(input, 'fraction', at(path), { assume: '%' });
        if (value >= 0 && value < 1) return value;
        const found = String(input);
        return refuse({ code: 'field-out-of-range', where: at(path), found, expected: '0 % to less than 100 %' });
      }) ?? 0
    );
  };
  const { labour, sealer, mould, packing, fee } = written;
  const costs: Costs = {
    labour:
      labour === undefined
        ? NO_COSTS.labour
        : {
            rate: money(labour.rate, 'labour.rate'),
            minutes: minutes(labour.minutes, 'labour.minutes'),
            batchMinutes: minutes(labour['batch-minutes'], 'labour.batch-minutes'),
          },
    sealer:
      sealer === undefined ? NO_COSTS.sealer : (all.attempt(() => readSealer(sealer, currency, noted, at)) ?? null),
    mould: mould === undefined ? NO_COSTS.mould : { price: money(mould.price, 'mould.price'), pours: mould.pours },
    packing:
      packing === undefined
        ? NO_COSTS.packing
        : {
            cost: money(packing.cost, 'packing.cost'),
            weight:
              packing.weight === undefined
                ? 0
                : (all.attempt(() => parseQuantity(packing.weight, 'mass', at('packing.weight'))) ?? 0),
          },
    postage: readPostage(written.postage ?? [], money, all, at),
    fee: { share: share(fee?.share, 'fee.share'), each: money(fee?.each, 'fee.each') },
    margin: share(written.margin, 'margin'),
    breakage: share(written.breakage, 'breakage'),
  };
  if (costs.fee.share + costs.margin >= 1) {
    all.add({
      code: 'field-out-of-range',
      severity: 'error',
      where: at('margin'),
      found: `fee ${String(fee?.share)} and margin ${String(written.margin)}`,
      expected: 'together less than 100 %',
      hint: 'no price covers what is more than the whole of it',
    });
  }
  return { costs, currency: all.attempt(() => oneCurrency(named, at('currency'))) ?? null };
}

function readSealer(
  sealer: NonNullable<WrittenShop['sealer']>,
  currency: { currency?: string },
  noted: <M extends Money>(sum: M) => M,
  at: (path: string) => Where,
): NonNullable<Costs['sealer']> {
  const { amount, pack } = noted(parsePrice(sealer.price, at('sealer.price'), currency));
  const use = parseAmount(sealer.use, at('sealer.use'), { positive: true });
  if ('grams' in pack !== 'grams' in use) {
    const expected = 'grams' in pack ? 'a weight, because the pack is sold by weight' : 'a volume, as the pack is sold';
    refuse({ code: 'unit-wrong-kind', where: at('sealer.use'), found: String(sealer.use), expected });
  }
  return { amount, pack, use };
}

function readPostage(
  written: NonNullable<WrittenShop['postage']>,
  money: (input: unknown, path: string) => string,
  all: Gather,
  at: (path: string) => Where,
): PostageStep[] {
  const steps = written.flatMap((step, i): (PostageStep & { path: string })[] => {
    const path = `postage.${i}.up-to`;
    const upTo = all.attempt(() => parseQuantity(step['up-to'], 'mass', at(path), { positive: true }));
    const price = money(step.price, `postage.${i}.price`);
    return upTo === undefined ? [] : [{ upTo, price, path }];
  });
  steps.sort((a, b) => a.upTo - b.upTo);
  for (let i = 1; i < steps.length; i++) {
    const { upTo, path } = steps[i]!;
    if (upTo === steps[i - 1]!.upTo)
      all.add({
        code: 'field-duplicate',
        severity: 'error',
        where: at(path),
        found: `⟦${upTo} g⟧`,
        expected: 'each weight once',
      });
  }
  return steps.map(({ upTo, price }) => ({ upTo, price }));
}

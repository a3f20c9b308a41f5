import { Decimal } from 'decimal.js';

/** Exact arithmetic on money. 40 digits: quotients such as price over grams are cut far below any coin. */
export const Sum = Decimal.clone({ precision: 40, rounding: Decimal.ROUND_HALF_UP });
export type Sum = Decimal;

export const sum = (amounts: readonly Sum[]): Sum => amounts.reduce((total, a) => total.plus(a), new Sum(0));

/** Rounded half up to the currency's coins. */
export const toCoins = (amount: Sum, decimals: number): Sum => amount.toDecimalPlaces(decimals, Decimal.ROUND_HALF_UP);

/** The next sum of whole coins that is not below. */
export const upToCoins = (amount: Sum, decimals: number): Sum => amount.toDecimalPlaces(decimals, Decimal.ROUND_CEIL);

/**
 * Lines in whole coins that add up to their total in whole coins.
 *
 * The total is the exact sum rounded half up. Each line is cut to whole coins, and the coins still lacking go one each
 * to the lines that lost most by the cut (largest remainder; the earlier line where two lost the same). So no line is a
 * coin or more away from its exact amount, and a maker who adds the lines up gets the total that is printed.
 */
export function shownLines(
  exact: readonly Sum[],
  decimals: number,
): { readonly lines: readonly Sum[]; readonly total: Sum } {
  const coin = new Sum(10).pow(-decimals);
  const total = toCoins(sum(exact), decimals);
  const cut = exact.map((amount) => amount.toDecimalPlaces(decimals, Decimal.ROUND_FLOOR));
  const lacking = total.minus(sum(cut)).div(coin).toNumber();
  const byLoss = exact
    .map((amount, i) => ({ i, lost: amount.minus(cut[i]!) }))
    .sort((a, b) => b.lost.comparedTo(a.lost) || a.i - b.i)
    .slice(0, lacking);
  const raised = new Set(byLoss.map(({ i }) => i));
  return { lines: cut.map((amount, i) => (raised.has(i) ? amount.plus(coin) : amount)), total };
}

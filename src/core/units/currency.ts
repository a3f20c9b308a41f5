/**
 * Decimals of the currencies that are not counted in hundredths. ISO 4217, list of 2025-02-04 (looked up, as a browser
 * engine's source carries it). The engine's own Intl is not asked: its data gives some currencies no decimals by habit
 * of the till, where the standard gives two.
 */
const DECIMALS: ReadonlyMap<string, number> = new Map([
  ...words('BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF', 0),
  ...words('BHD IQD JOD KWD LYD OMR TND', 3),
  ...words('CLF UYW', 4),
]);

function words(codes: string, decimals: number): [string, number][] {
  return codes.split(' ').map((code) => [code, decimals]);
}

/** Decimals that sums in this currency are paid in; two where no currency is named. */
export const currencyDecimals = (currency: string | null): number => DECIMALS.get(currency ?? '') ?? 2;

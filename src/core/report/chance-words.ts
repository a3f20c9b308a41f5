/** Between these shares chances are told to the nearest twentieth: they rest on a few draws. */
const [LOW, HIGH] = [0.1, 0.9];
const TOLD_TO = 0.05;

/** A chance as finely as its draws bear: "70 %", "98 %". */
export function chancePercent(chance: number): string {
  const coarse = chance >= LOW && chance <= HIGH;
  return `${Math.round(100 * (coarse ? TOLD_TO * Math.round(chance / TOLD_TO) : chance))} %`;
}

/** A chance in words that a range can bear; empty where none is known. */
export function chanceWords(chance: number | null): string {
  if (chance === null) return '';
  if (chance > 0.995) return 'sure';
  if (chance < 0.005) return 'no chance';
  return `${chancePercent(chance)} sure`;
}

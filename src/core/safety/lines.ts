import { inUnits } from '../units/marked.js';
import type { UnitSystem } from '../units/print.js';
import type { CautionSet, CautionSeverity } from './caution.js';

const SEVERITY_WORDS: Readonly<Record<CautionSeverity, string>> = {
  stop: 'STOP',
  warn: 'Warning',
  caution: 'Caution',
  info: 'Note',
};

/**
 * A set as plain lines, for the command line, the card and the page alike, so that none can drop the first aid or the
 * closing note. A full set gives each caution its title, text, reason and source; a short one gives one line each.
 */
export function cautionLines(told: CautionSet, system: UnitSystem = 'metric'): readonly string[] {
  const set = inUnits(told, system);
  const cautions =
    set.form === 'short'
      ? set.cautions.map((c) => `${SEVERITY_WORDS[c.severity]}: ${c.text}`)
      : set.cautions.flatMap((c) => [
          `${SEVERITY_WORDS[c.severity]}: ${c.title}`,
          c.text,
          `Why here: ${c.because}.`,
          `Source: ${c.source}.`,
        ]);
  return [...cautions, 'First aid', ...set.firstAid.map((l) => `${l.when}: ${l.act}`), set.closing];
}

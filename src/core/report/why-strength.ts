import type { ModelFigures } from '../materials/model-figures.js';
import { degreeOfHydration, gelSpaceRatio, ultimateDegree } from '../science/hydration.js';
import { ACI_STRENGTH_SI, gelSpaceStrength } from '../science/strength.js';
import type { CrossCheck } from './why-schema.js';

const DAYS = 28;

/** ACI 211.1's table of strength against w/c beside the gel/space law with the table's own figures, moist at 20 °C. */
export function strengthTable(figures: ModelFigures): CrossCheck {
  const value = (id: string): number => figures[id]!.value;
  const shape = { tauHours: value('hydration-tau'), beta: value('hydration-beta') };
  return {
    title: 'Portland without air: ACI 211.1’s table beside the gel/space law, 28 days moist',
    note: 'The constant of the law was set to this table, so this is a look at its shape, not a check.',
    columns: ['w/c', 'printed, MPa', 'law, MPa'],
    rows: ACI_STRENGTH_SI.plain.map(({ strength, waterToCement }) => {
      const degree = degreeOfHydration(24 * DAYS, ultimateDegree(waterToCement), shape);
      const law = gelSpaceStrength(gelSpaceRatio(degree, waterToCement), value('portland-strength'));
      return [waterToCement, strength, Number(law.toFixed(1))];
    }),
  };
}

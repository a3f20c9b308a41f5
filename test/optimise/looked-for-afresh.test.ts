import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { isDosed } from '../../src/core/optimise/bulk.js';
import { AIMS } from '../../src/core/optimise/objective.js';
import type { Objective, Question } from '../../src/core/optimise/question.js';
import { settle } from '../../src/core/optimise/settle.js';
import { settleSystems } from '../../src/core/optimise/settle-systems.js';
import { benchQuestion } from '../support/bench-questions.js';
import { unlimited } from '../support/hand-question.js';
import { material } from '../support/shipped-table.js';

/** Doses that help one another make valleys. The brief is invented; the shelf is the shipped one. */
const planter = (objective: Objective, heaviest: number): Question => ({
  ...benchQuestion(43),
  objective,
  // As much pozzolan as all together may be, whatever the window of each.
  materials: benchQuestion(43).materials.map((m) => (m.kind === 'pozzolan' ? unlimited(m.id) : m)),
  targets: [
    // However short: the valleys lie where nobody could pour any more.
    { property: 'working-time', min: 0 },
    { property: 'dry-weight', max: heaviest },
    { property: 'water-to-binder', max: 0.58 },
    { property: 'strength', min: 13 },
  ],
  conditions: { ...benchQuestion(43).conditions, volume: 711, service: 'damp' },
  doses: [],
});

describe('what came out best', () => {
  const of = (objective: Objective, heaviest = 960) => {
    const question = planter(objective, heaviest);
    const world = worldOf(question);
    const aim = AIMS[objective];
    const [best] = settleSystems(question, world, aim).ranked;
    const once = settle(question, world, best!.system, { aim })!;
    const start = once.grams.map((g, i) => (isDosed(question.materials[i]!) ? 0 : g));
    return {
      system: best!.system.id,
      // Before its limits: what is too little to weigh is another search.
      best: best!.free ?? best!.answer,
      once,
      again: settle(question, world, best!.system, { aim, start })!,
    };
  };

  it('is looked for once more without its doses where the quickest is sought, and is a third quicker for it', () => {
    const { system, best, once, again } = of('quickest');
    expect(system).toBe('gypsum');
    expect(again.feasible).toBe(true);
    expect(again.value!).toBeLessThan(0.75 * once.value!);
    expect(best.value).toBe(again.value);
    expect(best.grams).toEqual(again.grams);
  });

  it('stays where a second look finds nothing better', () => {
    const { best, once, again } = of('strongest', 1000);
    expect(again.value!).toBeLessThan(0.995 * once.value!);
    expect(best.grams).toEqual(once.grams);
  });

  it('is taken as it is where no doses make valleys', () => {
    const { best, once } = of('cheapest');
    expect(best.grams).toEqual(once.grams);
    expect(Object.entries(AIMS).flatMap(([id, aim]) => (aim.rugged ? [id] : []))).toEqual([
      'lightest',
      'strongest',
      'quickest',
    ]);
  });

  it('keeps its pozzolan in that second look: it is binder', () => {
    expect(
      ['silica-fume', 'metakaolin', 'plasticiser-powder', 'portland-cement-grey'].map((id) => isDosed(material(id))),
    ).toEqual([false, false, true, false]);
  });
});

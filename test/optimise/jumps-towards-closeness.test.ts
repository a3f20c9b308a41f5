import { describe, expect, it } from 'vitest';
import { worldOf } from '../../src/core/blend/world.js';
import { explore } from '../../src/core/optimise/settle.js';
import type { BinderSystem } from '../../src/core/optimise/systems.js';
import type { Closeness } from '../../src/core/optimise/wanted.js';
import { questionOf } from '../support/hand-question.js';
import { systemOf } from '../support/small-shelf.js';

/** Jumps towards what is wanted: tolerances are no shares, and three of them fewer are not three times as good. */
describe('a search for closeness', () => {
  const question = questionOf(['water', 'portland-cement-grey', 'metakaolin', 'perlite', 'masonry-sand']);
  const aim: Closeness = {
    sense: 'min',
    wanted: [{ property: 'cost', high: 0.01, tolerance: 0.02, weight: 1 }],
    thrift: 0,
  };
  const jumpsBeside = (value: number | null): number => {
    let jumps = 0;
    const system: BinderSystem = {
      ...systemOf('portland'),
      rows: () => {
        jumps++;
        return [];
      },
    };
    const world = worldOf(question);
    const { best } = explore(question, world, systemOf('portland'), { aim })!;
    explore(question, world, system, { aim }, value === null ? null : { ...best, value: best.value! + value, miss: 0 });
    return jumps;
  };

  it('is not given up for one that is some tolerances nearer', () => {
    expect(jumpsBeside(null)).toBeGreaterThan(2);
    expect(jumpsBeside(-3)).toBe(jumpsBeside(null));
  });
});

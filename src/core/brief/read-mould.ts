import { evaluate } from '../blend/assess.js';
import type { Conditions } from '../blend/conditions.js';
import { demouldWeight, freshVolume } from '../blend/properties/volume-and-weight.js';
import { worldOf } from '../blend/world.js';
import { refuse, type Where } from '../problems/problem.js';
import { waterDensity } from '../science/water-density.js';
import { parseAmount, parseQuantity } from '../units/quantity.js';
import { type MouldVolume, type Solid, shapedMould } from './mould.js';
import { mouldWithin } from './ranges.js';
import { readAmounts } from './read-amounts.js';
import type { WrittenMould, WrittenSolid } from './schema.js';
import type { Shelf } from './shelf.js';

type At = (path: string) => Where;

const sides = (written: WrittenSolid, path: string, at: At): Solid => {
  const side = (name: string, text: unknown): number =>
    parseQuantity(text, 'length', at(`${path}.${name}`), { positive: true });
  switch (written.shape) {
    case 'box':
      return {
        shape: 'box',
        length: side('length', written.length),
        width: side('width', written.width),
        height: side('height', written.height),
      };
    case 'cylinder':
      return {
        shape: 'cylinder',
        diameter: side('diameter', written.diameter),
        height: side('height', written.height),
      };
    case 'cone':
      return {
        shape: 'cone',
        top: side('top', written.top),
        bottom: side('bottom', written.bottom),
        height: side('height', written.height),
      };
    case 'hexagon':
      return { shape: 'hexagon', across: side('across', written.across), height: side('height', written.height) };
  }
};

/**
 * The volume of one piece, from water fill, from the shape, or from the weight of an earlier piece and its recipe.
 * @throws InputProblems `mould-impossible`, `field-missing`, `field-out-of-range`, and those of the quantities.
 */
export function readMould(written: WrittenMould, shelf: Shelf, conditions: Conditions, at: At): MouldVolume {
  const ways = (['water', 'solid', 'piece'] as const).filter((way) => written[way] !== undefined);
  if (ways.length !== 1) {
    refuse({
      code: ways.length === 0 ? 'field-missing' : 'brief-contradicts',
      where: at('mould'),
      ...(ways.length === 0 ? {} : { found: ways.join(' and ') }),
      expected: 'one of water (what fills it), solid (its shape) or piece (an earlier piece and its recipe)',
    });
  }
  if (written.core !== undefined && written.solid === undefined) {
    refuse({ code: 'brief-contradicts', where: at('mould.core'), expected: 'a core only beside a solid' });
  }
  if (written.water !== undefined) {
    const fill = parseAmount(written.water, at('mould.water'), { positive: true });
    const volume = 'cm3' in fill ? fill.cm3 : fill.grams / waterDensity(conditions.temperature);
    return { volume: mouldWithin(volume, String(written.water), at('mould.water')), wall: null, coolingWall: null };
  }
  if (written.solid !== undefined) {
    const core = written.core === undefined ? null : sides(written.core, 'mould.core', at);
    const mould = shapedMould(sides(written.solid, 'mould.solid', at), core, at('mould.core'));
    mouldWithin(mould.volume, millilitres(mould.volume), at('mould.solid'));
    return mould;
  }
  const piece = written.piece!;
  const weight = parseQuantity(piece.weight, 'mass', at('mould.piece.weight'), { positive: true });
  const { parts } = readAmounts(piece, shelf, 'mould.piece', at);
  const world = worldOf({ materials: parts.map((p) => p.material), figures: shelf.figures, conditions });
  const { value } = evaluate(
    world,
    parts.map((p) => p.grams),
  );
  const volume = (weight / value(demouldWeight)!) * value(freshVolume)!;
  const found = `${piece.weight}, a piece of ${millilitres(volume)}`;
  return { volume: mouldWithin(volume, found, at('mould.piece.weight')), wall: null, coolingWall: null };
}

const millilitres = (cm3: number): string => `⟦${Number(cm3.toPrecision(4))} mL⟧`;

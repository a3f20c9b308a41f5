import { readBrief } from '../../src/core/brief/read-brief.js';
import { readRecipe } from '../../src/core/brief/read-recipe.js';
import { readShop } from '../../src/core/brief/read-shop.js';
import { briefSchema, recipeSchema, shopSchema } from '../../src/core/brief/schema.js';
import { propose } from '../../src/core/optimise/propose.js';
import { InputProblems } from '../../src/core/problems/problem.js';
import { dottedPlaces } from '../../src/core/reading/located.js';
import { checkShape } from '../../src/core/reading/shape.js';
import { mixedRecipe } from '../../src/core/report/mixed.js';
import { orderBlend } from '../../src/core/report/order-blend.js';
import { orderResult } from '../../src/core/report/order-result.js';
import { orderSchema, readOrder } from '../../src/core/shop/order-file.js';
import { planOrder } from '../../src/core/shop/order-plan.js';
import { fitFigures, type Measured } from '../../src/core/shop/pours-fit.js';
import { knownPour } from '../../src/core/shop/pours-known.js';
import { measuredPour, wasteFigure } from '../../src/core/shop/pours-measured.js';
import { readPours } from '../../src/core/shop/pours-record.js';
import { located, READERS, type Reader, shelf } from './readers.js';

/** Spoilt texts all the way through what is done with them: what reads may still be more than a later step can bear. */

const seedsOf = (name: string): readonly string[] => READERS.find((r) => r.name === name)!.seeds;

const RECIPE = `mould: { water: 300 mL }
amounts: { casting-plaster: 200 g, silica-sand-fine: 300 g, water: 150 g }
`;
const recipeFile = located(RECIPE);
const mixed = mixedRecipe(
  readRecipe(checkShape(recipeSchema, recipeFile), shelf, dottedPlaces(recipeFile)),
  shelf,
  true,
  {
    draws: 0,
  },
);
const poured = orderBlend(mixed);
const shop = readShop(checkShape(shopSchema, located(seedsOf('shop')[0]!)), () => ({}));

function plansOrder(text: string): unknown {
  const file = located(text);
  const order = readOrder(checkShape(orderSchema, file), shop, dottedPlaces(file));
  const ordered = order.items.map((item) => ({ item, blend: poured, faster: () => null }));
  const plan = planOrder(order, ordered, { packs: () => [], stock: () => 0, keeps: () => null });
  return orderResult(
    order,
    ordered,
    ordered.map(() => mixed.result),
    plan,
    shelf,
    true,
  );
}

function fitsPours(text: string): unknown {
  const { pours } = readPours(text, 'pours.csv');
  const measured = pours.slice(0, 6).flatMap((pour): Measured[] => {
    try {
      const known = knownPour(pour, { conditions: mixed.input.conditions, parts: null }, shelf);
      const one = measuredPour(known, shop.scale.step, wasteFigure(shop.waste));
      return one === null ? [] : [one];
    } catch (error) {
      // The command leaves such a pour out and says why.
      if (error instanceof InputProblems) return [];
      throw error;
    }
  });
  if (measured.length === 0) return null;
  const { figures, misfit } = fitFigures(measured);
  return { figures: figures.map(({ value, low, high, left, moved }) => ({ value, low, high, left, moved })), misfit };
}

function proposes(text: string): unknown {
  const file = located(text);
  const { question } = readBrief(checkShape(briefSchema, file), shelf, dottedPlaces(file));
  const { ingredients, assessment } = propose(question, { draws: 0 });
  return { ingredients, properties: assessment.properties };
}

export const THROUGH: readonly Reader[] = [
  { name: 'order to plan', seeds: seedsOf('order'), read: plansOrder },
  { name: 'pours to fit', seeds: seedsOf('pours'), read: fitsPours },
  { name: 'brief to proposal', seeds: seedsOf('brief'), read: proposes },
];

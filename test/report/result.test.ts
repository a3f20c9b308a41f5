import { describe, expect, it } from 'vitest';
import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import { recipeSchema } from '../../src/core/brief/schema.js';
import { propose } from '../../src/core/optimise/propose.js';
import { assessRecipe, proposalResult } from '../../src/core/report/result.js';
import { assessmentResultSchema, proposalResultSchema } from '../../src/core/report/result-schema.js';
import { material, numberOf } from '../support/shipped-table.js';
import { brief, recipe, SHELF } from '../support/written.js';

const assessed = (text: string, draws = 20) => assessRecipe(recipe(text), SHELF, false, { draws });

describe('the result of a recipe', () => {
  const PLANTER = `
mould: { water: 500 mL }
basis: mass
amounts: { portland-cement-grey: 100, masonry-sand: 150, water: 45, acrylic-emulsion: 10 }
targets: { water-to-binder: { max: 0.6 }, strength: { min: 5 MPa } }
`;

  it('keeps to its schema, with every property there is, in order', () => {
    const result = assessmentResultSchema.parse(assessed(PLANTER));
    expect(result.properties.map((p) => p.property)).toEqual(PROPERTIES.map((p) => p.id));
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });

  it('has parts of a hundred of binder, and loose volumes by the density as scooped', () => {
    const { blend } = assessed(PLANTER);
    const part = (id: string) => blend.find((b) => b.material === id)!;
    expect(part('portland-cement-grey').partsByMass).toBeCloseTo(100, 9);
    expect(part('masonry-sand').partsByMass).toBeCloseTo(150, 9);
    expect(part('masonry-sand').litres! * numberOf(material('masonry-sand').bulkDensity)).toBeCloseTo(
      part('masonry-sand').batchGrams / 1000,
      12,
    );
    expect(part('acrylic-emulsion').litres! * numberOf(material('acrylic-emulsion').density)).toBeCloseTo(
      part('acrylic-emulsion').batchGrams / 1000,
      12,
    );
    expect(part('water').scoops).toBeCloseTo((1000 * part('water').litres!) / SHELF.shop.scoop, 9);
  });

  it('without a binder has parts of a hundred of solids', () => {
    const { blend } = assessed('amounts: { masonry-sand: 300 g, limestone-flour: 100 g, water: 50 g }');
    expect(blend.map((b) => b.partsByMass)).toEqual([75, 25, 12.5].map((x) => expect.closeTo(x, 9)));
  });

  it('warns of figures that make no sense, with the figure', () => {
    const wet = assessed('amounts: { portland-cement-grey: 300 g, water: 400 g }');
    expect(wet.warnings.map((w) => w.message).join(' ')).toMatch(
      /flow index of .*bleed(.|\n)*1\.3 g of water for each gram of cement/,
    );
    const dry = assessed('amounts: { portland-cement-grey: 300 g, water: 45 g }');
    expect(dry.warnings.map((w) => w.message).join(' ')).toMatch(/too little water to pour/i);
    expect(assessed('amounts: { casting-plaster: 1 kg, water: 700 g }').warnings).toEqual([]);
  });

  it('says no more of a flow that may be well than that there may be more water than it needs', () => {
    const codes = (sand: number, water: number) =>
      assessed(
        `amounts: { portland-cement-grey: 450 g, silica-sand-medium: ${sand} g, water: ${water} g }`,
      ).warnings.map((w) => w.code);
    // The mortar of EN 196-1 (from memory): one of cement, three of sand, half of water. Sand takes more paste than the
    // table has it need; the paste that is short does not run.
    expect(codes(1350, 225)).toEqual(['recipe-implausible']);
    expect(codes(900, 225)).toEqual(['recipe-runny']);
    expect(codes(900, 202)).toEqual([]);
    expect(codes(100, 320)).toEqual(['recipe-implausible']);
  });

  it('raises the cautions of what is in it, none of which the targets or the brief can take away', () => {
    const ids = (text: string) => assessed(text, 0).cautions.cautions.map((c) => c.id);
    const cement = ids('amounts: { portland-cement-grey: 300 g, water: 140 g }');
    const plaster = ids('amounts: { casting-plaster: 300 g, water: 210 g }');
    expect(cement).not.toEqual(plaster);
    expect(cement.length).toBeGreaterThan(5);
    expect(plaster.length).toBeGreaterThan(5);
    for (const field of Object.keys(recipeSchema.shape)) expect(field).not.toMatch(/caution|safety|hazard|warn/);
  });
});

describe('the result of a brief', () => {
  const LIGHT = 'mould: { water: 300 mL }\nobjective: lightest\nmaterials: { only: [casting-plaster, perlite] }\n';

  it('keeps to its schema, and tells the standing limits apart from the maker’s', () => {
    const read = brief(`${LIGHT}targets: { flow: { min: 0.9 } }`);
    const proposal = propose(read.question, { draws: 20 });
    const result = proposalResultSchema.parse(proposalResult(read, proposal, SHELF, true));
    expect(result.status).toBe('met');
    expect(result.targets.map((t) => t.property)).toEqual(['flow']);
    expect(result.standing.map((t) => t.property)).not.toContain('flow');
    expect(result.standing.every((t) => t.met)).toBe(true);
    expect(result.invented).toBe(true);
    expect(result.leftOut.length).toBeGreaterThan(40);
    const weighed = result.properties.find((p) => p.property === 'dry-weight')!.value!;
    expect(result.objective).toMatchObject({ aim: 'lightest', property: 'dry-weight', weighed });
    expect(Math.abs(weighed / result.objective.exact! - 1)).toBeLessThan(0.05);
  });

  it('says of what cannot be met what collides, in core units', () => {
    const read = brief(`${LIGHT}targets: { strength: { min: 30 MPa }, dry-weight: { max: 150 g } }`);
    const proposal = propose(read.question, { draws: 0 });
    const result = proposalResultSchema.parse(proposalResult(read, proposal, SHELF, false));
    expect(result.status).toBe('nearest');
    const told = result.conflict!.collisions.map((c) => [c.property, c.side, c.limit]);
    expect(told).toEqual(expect.arrayContaining([['dry-weight', 'max', 150]]));
    expect(told).toEqual(expect.arrayContaining([['strength', 'min', expect.closeTo(30, 9)]]));
  });
});

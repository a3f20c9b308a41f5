import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import * as z from 'zod/mini';
import { mediumSchema } from '../core/brief/medium-schema.js';
import { briefSchema, recipeSchema, shopSchema } from '../core/brief/schema.js';
import { modelFileSchema } from '../core/materials/model-figures.js';
import { familyFileSchema, sourcesFileSchema, userFileSchema } from '../core/materials/schema.js';
import { cardResultSchema } from '../core/report/card-schema.js';
import { frontierResultSchema } from '../core/report/frontier-schema.js';
import { orderResultSchema } from '../core/report/order-schema.js';
import { fitResultSchema, pourResultSchema, poursResultSchema } from '../core/report/pours-schema.js';
import { priceResultSchema } from '../core/report/price-schema.js';
import { assessmentResultSchema, problemResultSchema, proposalResultSchema } from '../core/report/result-schema.js';
import { materialResultSchema, shelfCheckResultSchema, shelfResultSchema } from '../core/report/shelf-schema.js';
import {
  pageResultSchema,
  shopCheckResultSchema,
  shopInitResultSchema,
  shopPricesResultSchema,
} from '../core/report/shop-schema.js';
import { standInResultSchema } from '../core/report/stand-in-schema.js';
import { whyListSchema, whyResultSchema } from '../core/report/why-schema.js';
import { learnedSchema } from '../core/shop/learned.js';
import { orderSchema } from '../core/shop/order-file.js';
import { sieveSchema } from '../core/sieve/read-sieve.js';
import { sieveResultSchema } from '../core/sieve/sieve-schema.js';
import { coreFactors } from '../core/units/core-factors.js';

/**
 * Turns materials/*.yaml into one checked JSON file, so that the shipped table costs the command line no YAML and no
 * schema work at start; and writes the JSON Schemas that editors complete and check with.
 */
const [root = '.', out = 'dist'] = process.argv.slice(2);

const read = (name: string): unknown => parse(readFileSync(join(root, 'materials', name), 'utf8'));

function checked<T>(name: string, schema: z.ZodMiniType<T>): T {
  const result = schema.safeParse(read(name));
  if (!result.success) throw new Error(`materials/${name}\n${z.prettifyError(result.error)}`);
  return result.data;
}

const families = readdirSync(join(root, 'materials'))
  .filter((name) => name.endsWith('.yaml') && name !== 'sources.yaml' && name !== 'model.yaml')
  .sort();
const table = {
  format: 'pourwright.materials/1',
  materials: families.flatMap((name) => checked(name, familyFileSchema).materials),
  sources: checked('sources.yaml', sourcesFileSchema).sources,
  model: checked('model.yaml', modelFileSchema).model,
  factors: coreFactors(),
};

mkdirSync(join(out, 'schemas'), { recursive: true });
writeFileSync(join(out, 'materials.json'), JSON.stringify(table));
// What the published checks found, for `why`; made by `npm run models`.
writeFileSync(join(out, 'checks.json'), readFileSync(join(root, 'materials', 'checks.json')));

const schemas: Record<string, z.ZodMiniType> = {
  materials: userFileSchema,
  brief: briefSchema,
  recipe: recipeSchema,
  shop: shopSchema,
  medium: mediumSchema,
  order: orderSchema,
  learned: learnedSchema,
  sieve: sieveSchema,
  'assessment-result': assessmentResultSchema,
  'proposal-result': proposalResultSchema,
  'frontier-result': frontierResultSchema,
  problems: problemResultSchema,
  'material-result': materialResultSchema,
  'shelf-result': shelfResultSchema,
  'shelf-check-result': shelfCheckResultSchema,
  'stand-in-result': standInResultSchema,
  'why-list-result': whyListSchema,
  'sieve-result': sieveResultSchema,
  'why-result': whyResultSchema,
  'price-result': priceResultSchema,
  'card-result': cardResultSchema,
  'order-result': orderResultSchema,
  'pours-result': poursResultSchema,
  'pours-add-result': pourResultSchema,
  'pours-fit-result': fitResultSchema,
  'shop-init-result': shopInitResultSchema,
  'shop-check-result': shopCheckResultSchema,
  'shop-prices-result': shopPricesResultSchema,
  'page-result': pageResultSchema,
};
type JsonSchema = z.core.JSONSchema.BaseSchema;

/** The form without the names that stand by themselves: strict readers refuse a name that is said twice. */
function formBeside(names: readonly string[], form: string): string {
  const said = names.filter((name) => new RegExp(form).test(name));
  return said.length === 0 ? form : `^(?!(?:${said.join('|')})$)(?=${form})`;
}

/** Editors complete the names of properties, and not those that only a rule for names allows. */
function namedFields(json: JsonSchema): void {
  const { propertyNames, additionalProperties: value } = json;
  const kinds = typeof propertyNames === 'object' ? (propertyNames.anyOf ?? []) : [];
  if (kinds.length === 0 || value === undefined) return;
  const names = kinds.flatMap((kind) => (kind.enum ?? []) as string[]);
  const forms = kinds.flatMap((kind) => kind.pattern ?? []);
  json.properties = Object.fromEntries(names.map((name) => [name, value]));
  json.patternProperties = Object.fromEntries(forms.map((form) => [formBeside(names, form), value]));
  json.additionalProperties = false;
  delete json.propertyNames;
}

for (const [name, schema] of Object.entries(schemas)) {
  const json = z.toJSONSchema(schema, { io: 'input', override: ({ jsonSchema }) => namedFields(jsonSchema) });
  const text = JSON.stringify(json, null, 2);
  writeFileSync(join(out, 'schemas', `${name}.schema.json`), `${text}\n`);
}

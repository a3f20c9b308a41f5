import type { Figure, Gap } from '../materials/figure.js';
import { isGap } from '../materials/gap.js';
import type { ModelFigures } from '../materials/model-figures.js';
import type { Material } from '../materials/schema.js';

/**
 * Keys of figures as readings know them (numbers.ts): `model.<id>` for the models' own, `<material>.<field>` for a
 * material's. Here they are turned into places in the tables, so that a figure can be looked up and replaced by its key.
 */
export type FigureKey = string;

const MODEL = 'model.';

/** Steps to a field's figure inside a material; undefined when no such field can be read. */
function stepsTo(material: Material, field: string): readonly string[] | undefined {
  const [head, second, third] = field.split('.');
  switch (head) {
    case 'density':
    case 'bulkDensity':
    case 'solids':
    case 'absorption':
    case 'moisture':
    case 'so3':
    case 'waterDemand':
      return second === undefined ? [head] : undefined;
    case 'heat':
    case 'initialSet':
    case 'finalSet':
    case 'demould':
      return second === undefined ? ['binder', head] : undefined;
    case 'oxides':
      return second === undefined ? undefined : ['binder', 'oxides', second];
    case 'k':
    case 'kCap':
    case 'activity':
      return second === undefined ? ['pozzolan', head] : undefined;
    case 'phases':
      if (second === undefined || third !== undefined) return undefined;
      return [material.binder?.phases === undefined ? 'pozzolan' : 'binder', 'phases', second];
    case 'effects':
      return second === undefined ? undefined : ['effects', second, third === 'limit' ? 'limit' : 'per'];
    default:
      return undefined;
  }
}

const at = (value: unknown, steps: readonly string[]): unknown =>
  steps.reduce<unknown>(
    (part, step) =>
      typeof part === 'object' && part !== null && Object.hasOwn(part, step)
        ? (part as Record<string, unknown>)[step]
        : undefined,
    value,
  );

/** Material id and field of a key, or null for a key of the models. Material ids hold no points. */
export function materialKey(key: FigureKey): { readonly material: string; readonly field: string } | null {
  if (key.startsWith(MODEL)) return null;
  const point = key.indexOf('.');
  return point < 0 ? { material: key, field: '' } : { material: key.slice(0, point), field: key.slice(point + 1) };
}

export interface FigureTables {
  readonly materials: readonly Material[];
  readonly figures: ModelFigures;
}

/** The figure a key stands for, or undefined when the tables have none. */
export function figureByKey(tables: FigureTables, key: FigureKey): Figure | undefined {
  const own = materialKey(key);
  if (own === null) return tables.figures[key.slice(MODEL.length)];
  const material = tables.materials.find((m) => m.id === own.material);
  const steps = material && stepsTo(material, own.field);
  const found = steps && (at(material, steps) as Figure | Gap | undefined);
  return found === undefined || typeof found !== 'object' || !('value' in found) || isGap(found) ? undefined : found;
}

/** The tables with other figures under these keys. Keys the tables do not have are left out. */
export function withFigures<T extends FigureTables>(tables: T, replaced: ReadonlyMap<FigureKey, Figure>): T {
  const figures: Record<string, ModelFigures[string]> = { ...tables.figures };
  const byMaterial = new Map<string, Map<string, Figure>>();
  for (const [key, figure] of replaced) {
    const own = materialKey(key);
    if (own !== null) {
      const fields = byMaterial.get(own.material) ?? new Map<string, Figure>();
      byMaterial.set(own.material, fields.set(own.field, figure));
      continue;
    }
    const id = key.slice(MODEL.length);
    const old = figures[id];
    if (old !== undefined) figures[id] = { ...figure, title: old.title };
  }
  const materials = tables.materials.map((material) => {
    const fields = byMaterial.get(material.id);
    if (fields === undefined) return material;
    return [...fields].reduce((changed, [field, figure]) => {
      const steps = stepsTo(changed, field);
      return steps === undefined || at(changed, steps) === undefined
        ? changed
        : (put(changed, steps, figure) as Material);
    }, material);
  });
  return { ...tables, figures, materials };
}

/** A copy with one part replaced; everything else is shared. */
function put(value: unknown, steps: readonly string[], part: unknown): unknown {
  const [step, ...rest] = steps;
  if (step === undefined) return part;
  if (Array.isArray(value)) return value.map((item, i) => (String(i) === step ? put(item, rest, part) : item));
  const record = value as Record<string, unknown>;
  return { ...record, [step]: put(record[step], rest, part) };
}

const FIELD_WORDS: Readonly<Record<string, string>> = {
  density: 'density',
  bulkDensity: 'loose density',
  solids: 'solids',
  absorption: 'absorption',
  moisture: 'moisture',
  so3: 'sulfate',
  waterDemand: 'water demand',
  heat: 'heat of hydration',
  initialSet: 'initial set',
  finalSet: 'final set',
  demould: 'time to demoulding',
  k: 'k-value',
  kCap: 'cap of the k-value',
  activity: 'activity',
};

/** What a key means, in words: "air after tapping the mould", "casting plaster: initial set". */
export function titleOfKey(tables: FigureTables, key: FigureKey): string {
  const own = materialKey(key);
  if (own === null) return tables.figures[key.slice(MODEL.length)]?.title ?? key;
  const name = tables.materials.find((m) => m.id === own.material)?.name ?? own.material;
  const [head, second] = own.field.split('.');
  if (head === 'phases') return `${name}: share of ${second!.replace(/([A-Z])/g, ' $1').toLowerCase()}`;
  if (head === 'oxides') return `${name}: share of ${second!.toUpperCase()}`;
  if (head === 'effects') return `${name}: strength of its effect`;
  return `${name}: ${FIELD_WORDS[head ?? ''] ?? own.field}`;
}

/** Fewer words for figures of the models that makers meet often. */
const SHORT: readonly (readonly [RegExp, string])[] = [
  [/^air-/, 'air'],
  [/^drying-days$/, 'drying time'],
  [/^drying-wall-power$/, 'drying by thickness'],
  [/^lost-in-mould$/, 'water lost in the mould'],
  [/^set-spread$/, 'set times'],
  [/^demould-spread$/, 'demoulding times'],
  [/^set-voice-|^demould-voice-/, 'set of mixed binders'],
  [/^set-energy-/, 'set by temperature'],
  [/^held-/, 'water held when dry'],
  [/^gypsum-conversion$|^cement-bound-water$/, 'water bound'],
  [/^hydration-|^csa-tau$/, 'pace of hydration'],
];

/** As titleOfKey in a word or two, for lists; several figures may share one. */
export function shortTitle(tables: FigureTables, key: FigureKey): string {
  const id = materialKey(key) === null ? key.slice(MODEL.length) : null;
  const short = id === null ? undefined : SHORT.find(([pattern]) => pattern.test(id))?.[1];
  return short ?? titleOfKey(tables, key);
}

import type { Material } from '../materials/schema.js';
import { DOSE_BASES, type DoseBasis } from '../materials/schema.js';
import type { AskedDose, Objective, Question } from '../optimise/question.js';
import { gather } from '../problems/gather.js';
import { refuse, type Where } from '../problems/problem.js';
import { parseQuantity } from '../units/quantity.js';
import { isFree, leftOut } from './play.js';
import { readMould } from './read-mould.js';
import { readSetting, type Setting } from './read-setting.js';
import { readTargets } from './read-targets.js';
import type { WrittenBrief } from './schema.js';
import type { Shelf } from './shelf.js';

export interface Brief {
  readonly title: string;
  readonly question: Question;
  readonly setting: Setting;
  /** Materials of the shelf that are not in play, and why. */
  readonly leftOut: readonly { readonly material: string; readonly why: string }[];
}

/**
 * A checked brief in core units.
 * @throws InputProblems with everything that is wrong, each with its place.
 */
export function readBrief(written: WrittenBrief, shelf: Shelf, at: (path: string) => Where): Brief {
  const all = gather();
  const { shop } = shelf;
  const setting = readSetting(written, written.batch?.waste, shop, all, at);
  const mould = all.attempt(() => readMould(written.mould, shelf, setting.conditions, at));
  const targets = readTargets(written.targets ?? {}, shop.currency, all, at);
  const doses = readDoses(written, shelf, at, all);
  const play = inPlay(written, shelf, doses, at, all);
  if (needsPrices(written.objective, targets) && shelf.prices.size === 0) {
    all.add({
      code: 'price-missing',
      severity: 'error',
      where: at(written.objective === 'cheapest' ? 'objective' : 'targets.cost'),
      expected: 'a price list: name a shop with prices in the brief (shop: …)',
    });
  }
  all.finish();
  const conditions = {
    ...setting.conditions,
    volume: mould!.volume,
    wall: written.wall === undefined && mould!.wall !== null ? mould!.wall : setting.conditions.wall,
  };
  return {
    title: written.title ?? 'untitled brief',
    setting: { ...setting, conditions },
    leftOut: play.leftOut,
    question: {
      objective: written.objective,
      targets,
      conditions,
      materials: play.materials,
      doses,
      figures: shelf.figures,
      ...(shelf.learned === null ? {} : { together: shelf.learned.together }),
      prices: shelf.prices,
      stock: shelf.stock,
      batch: { pieces: written.batch?.pieces ?? 1, ...shop.scale },
    },
  };
}

const needsPrices = (objective: Objective, targets: readonly { property: string }[]): boolean =>
  objective === 'cheapest' || targets.some((t) => t.property === 'cost');

function readDoses(
  written: WrittenBrief,
  shelf: Shelf,
  at: (path: string) => Where,
  all: ReturnType<typeof gather>,
): AskedDose[] {
  const doses: AskedDose[] = [];
  for (const [word, text] of Object.entries(written.doses ?? {})) {
    const dose = all.attempt(() => {
      const where = at(`doses.${word}`);
      const material = shelf.find(word, where);
      const found = /^(.*?)\bof\s+(?:the\s+)?([a-z-]+(?: [a-z]+)?)\s*$/i.exec(String(text));
      const base = found?.[2]?.toLowerCase().replace(' ', '-') as DoseBasis | undefined;
      if (found === null || base === undefined || !DOSE_BASES.includes(base)) {
        refuse({
          code: 'option-invalid',
          where,
          found: String(text),
          expected: `a share and what it is of, such as "1 % of binder" (${DOSE_BASES.join(', ')})`,
        });
      }
      const percent = 100 * parseQuantity(found[1]!.trim(), 'fraction', where, { positive: true, assume: '%' });
      return { material: material.id, percent, of: base };
    });
    if (dose) doses.push(dose);
  }
  if (written.colour !== undefined) {
    const { colour } = written;
    const dose = all.attempt((): AskedDose => {
      const material = shelf.find(colour.pigment, at('colour.pigment'));
      if (material.kind !== 'pigment') {
        refuse({
          code: 'option-invalid',
          where: at('colour.pigment'),
          found: `${material.name} (${material.kind})`,
          expected: 'a pigment',
        });
      }
      const share = parseQuantity(colour.share, 'fraction', at('colour.share'), { positive: true, assume: '%' });
      return { material: material.id, percent: 100 * share, of: 'binder' };
    });
    if (dose) doses.push(dose);
  }
  return doses;
}

function inPlay(
  written: WrittenBrief,
  shelf: Shelf,
  doses: readonly AskedDose[],
  at: (path: string) => Where,
  all: ReturnType<typeof gather>,
): { materials: Material[]; leftOut: { material: string; why: string }[] } {
  const named = (list: readonly string[] | undefined, name: string): Map<string, Where> => {
    const ids = new Map<string, Where>();
    (list ?? []).forEach((word, i) => {
      const where = at(`materials.${name}.${i}`);
      const material = all.attempt(() => shelf.find(word, where));
      if (material) ids.set(material.id, where);
    });
    return ids;
  };
  const only = named(written.materials?.only, 'only');
  const also = named(written.materials?.also, 'also');
  const never = named(written.materials?.never, 'never');
  const asked = new Set(doses.map((d) => d.material));
  const wantsPrices = written.objective === 'cheapest' || written.targets?.['cost'] !== undefined;
  for (const [id, where] of never) {
    if (only.has(id) || also.has(id) || asked.has(id)) {
      all.add({
        code: 'brief-contradicts',
        severity: 'error',
        where,
        found: id,
        expected: 'not both asked for and barred',
      });
    }
  }
  const materials: Material[] = [];
  const out: { material: string; why: string }[] = [];
  for (const material of shelf.materials) {
    const { id } = material;
    const wanted = only.has(id) || also.has(id) || asked.has(id);
    const why = never.has(id)
      ? 'barred by the brief'
      : only.size > 0 && !wanted && material.kind !== 'water'
        ? 'not among those the brief names'
        : wanted
          ? null
          : leftOut(material);
    const priceless = wantsPrices && !isFree(material) && !shelf.prices.has(id);
    if (why === null && priceless && wanted && shelf.prices.size > 0) {
      const where = only.get(id) ?? also.get(id);
      all.add({
        code: 'price-missing',
        severity: 'error',
        ...(where && { where }),
        found: id,
        expected: 'a price for it in the price list',
      });
    } else if (why !== null) out.push({ material: id, why });
    else if (priceless) out.push({ material: id, why: 'no price in the list' });
    else materials.push(material);
  }
  return { materials, leftOut: out };
}

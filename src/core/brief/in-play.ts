import type { Material } from '../materials/schema.js';
import { DOSE_BASES, type DoseBasis, type Service } from '../materials/words.js';
import { bannedWords } from '../optimise/barred.js';
import type { AskedDose } from '../optimise/question.js';
import type { Gather } from '../problems/gather.js';
import { refuse, type Where } from '../problems/problem.js';
import { isNothing, parseQuantity } from '../units/quantity.js';
import { impossibleDoses, type WrittenDose } from './dose-ceilings.js';
import { isFree, leftOut, UNPRICED } from './play.js';
import type { Setting } from './read-setting.js';
import type { WrittenBrief } from './schema.js';
import type { Shelf } from './shelf.js';
import { type Stopped, stoppedIn } from './stopped.js';

/** Doses asked for: percents of a base, and the colour; those that no blend can keep in this service are noted. */
export function readDoses(
  written: Pick<WrittenBrief, 'doses' | 'colour'>,
  shelf: Shelf,
  service: Service,
  at: (path: string) => Where,
  all: Gather,
): AskedDose[] {
  const doses: WrittenDose[] = [];
  for (const [word, text] of Object.entries(written.doses ?? {})) {
    const dose = all.attempt((): WrittenDose => {
      const where = at(`doses.${word}`);
      const material = shelf.find(word, where);
      if (material.kind === 'water') {
        refuse({
          code: 'option-invalid',
          where,
          found: word,
          expected: 'a material other than water, which follows from what the mix has to do',
          hint: 'to set the water, set a limit on it, such as “targets: { water-to-binder: { max: 0.5 } }”',
        });
      }
      const found = /^(.*?)\bof\s+(?:the\s+)?([a-z-]+(?: [a-z]+)?)\s*$/i.exec(String(text));
      const share = (words: string): number =>
        parseQuantity(words, 'fraction', where, { positive: true, optional: true, assume: '%' });
      // A share of nothing is that, whatever it is of.
      if (isNothing(text)) share((found?.[1] ?? String(text)).trim());
      const base = found?.[2]?.toLowerCase().replace(' ', '-') as DoseBasis | undefined;
      if (found === null || base === undefined || !DOSE_BASES.includes(base)) {
        refuse({
          code: 'option-invalid',
          where,
          found: String(text),
          expected: `a share and what it is of, such as "1 % of binder" (${DOSE_BASES.join(', ')})`,
        });
      }
      const percent = 100 * share(found[1]!.trim());
      return { dose: { material: material.id, percent, of: base }, material, text: String(text), where };
    });
    if (dose) doses.push(dose);
  }
  if (written.colour !== undefined) {
    const { colour } = written;
    const dose = all.attempt((): WrittenDose => {
      const material = shelf.find(colour.pigment, at('colour.pigment'));
      if (material.kind !== 'pigment') {
        refuse({
          code: 'option-invalid',
          where: at('colour.pigment'),
          found: `${material.name} (${material.kind})`,
          expected: 'a pigment',
        });
      }
      const where = at('colour.share');
      const share = parseQuantity(colour.share, 'fraction', where, { positive: true, optional: true, assume: '%' });
      const dose: AskedDose = { material: material.id, percent: 100 * share, of: 'binder' };
      return { dose, material, text: String(colour.share), where };
    });
    if (dose) doses.push(dose);
  }
  for (const problem of impossibleDoses(doses)) all.add(problem);
  for (const { dose, material, where } of doses) {
    if (dose.percent === 0 || !material.notFor?.includes(service)) continue;
    const hint = `${bannedWords(service)}; leave the dose out, or take a material that bears that`;
    all.add({ code: 'brief-contradicts', severity: 'error', where, found: material.name, hint });
  }
  return doses.map(({ dose }) => dose);
}

export interface InPlay {
  readonly materials: Material[];
  /** Materials of the shelf that are not in play, and why. */
  readonly leftOut: { material: string; why: string }[];
  /** Ids that the file names under “materials: only” or “also”, and where. */
  readonly named: ReadonlyMap<string, Where>;
}

/**
 * Which materials of the shelf may be used: those the file names or bars, those from the start (play.ts), and `welcome`
 * ones that would otherwise have to be named. What a caution would stop in this use has to be named too, and a binder that
 * “only” names beside one that is not stopped gives way to it. With `wantsPrices` what has no price stays out.
 */
export function inPlay(
  written: Pick<WrittenBrief, 'materials'>,
  shelf: Shelf,
  safety: Setting['safety'],
  doses: readonly AskedDose[],
  wantsPrices: boolean,
  at: (path: string) => Where,
  all: Gather,
  welcome: (material: Material) => boolean = () => false,
): InPlay {
  const named = (list: readonly string[] | undefined, name: string): Map<string, Where> => {
    const ids = new Map<string, Where>();
    (list ?? []).forEach((word, i) => {
      const where = at(`materials.${name}[${i}]`);
      const material = all.attempt(() => shelf.find(word, where));
      if (material) ids.set(material.id, where);
    });
    return ids;
  };
  const only = named(written.materials?.only, 'only');
  const also = named(written.materials?.also, 'also');
  const never = named(written.materials?.never, 'never');
  const asked = new Set(doses.map((d) => d.material));
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
  const stopped = stoppedIn(safety, shelf.shop.region);
  const insisted = (id: string): boolean => also.has(id) || asked.has(id);
  const sound = shelf.materials.some(
    (m) => m.binder !== undefined && (only.has(m.id) || insisted(m.id)) && stopped(m) === null,
  );
  const givesWay = (m: Material): boolean => sound && m.binder !== undefined && !insisted(m.id);
  const materials: Material[] = [];
  const out: { material: string; why: string }[] = [];
  for (const material of shelf.materials) {
    const { id } = material;
    const wanted = only.has(id) || insisted(id);
    const why = never.has(id)
      ? 'barred by the brief'
      : only.size > 0 && !wanted && material.kind !== 'water'
        ? 'not among those the brief names'
        : wanted
          ? givesWay(material)
            ? stopped(material)
            : null
          : ((welcome(material) ? null : leftOut(material)) ?? stopped(material));
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
    } else if (why !== null) out.push({ material: id, why: priceless ? `${why}; ${UNPRICED}` : why });
    else if (priceless) out.push({ material: id, why: UNPRICED });
    else materials.push(material);
  }
  requireBinder(materials, shelf, stopped, never, at, all);
  return { materials, leftOut: out, named: new Map([...only, ...also]) };
}

/** Notes `brief-contradicts` where every binder at hand would be stopped by a caution. */
function requireBinder(
  materials: readonly Material[],
  shelf: Shelf,
  stopped: Stopped,
  never: ReadonlyMap<string, Where>,
  at: (path: string) => Where,
  all: Gather,
): void {
  if (materials.some((m) => m.binder !== undefined)) return;
  const binders = shelf.materials.filter((m) => m.binder !== undefined && !never.has(m.id) && stopped(m) !== null);
  if (binders.length === 0) return;
  all.add({
    code: 'brief-contradicts',
    severity: 'error',
    where: at('uses'),
    found: binders.map((m) => m.name).join(', '),
    expected: 'a binder at hand that no caution stops in this use',
    hint: 'one that is named under “materials: also” is used all the same, and its caution says stop',
  });
}

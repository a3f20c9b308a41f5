import { stringify } from 'yaml';
import {
  type Conditions,
  explain,
  type FitResult,
  fitFigures,
  fitResult,
  fittedCurve,
  InputProblems,
  inUnits,
  type KnownPour,
  knownPour,
  learnedFile,
  type Measured,
  measuredPour,
  newRecord,
  nextName,
  type Part,
  type Pour,
  type PourRow,
  type PoursResult,
  pourLine,
  poursResult,
  readPours,
  type UnitSystem,
  wasteFigure,
} from '../../core/index.js';
import { beside, type Folder, textOf } from './folder.js';
import type { Open, Opener } from './open.js';

/** The record of pours, read and fitted by the same core as `pourwright pours`. */

export function shownPours(open: Opener, folder: Folder, file: string, shop: string | null): PoursResult {
  const opened = open.shop(folder, shop);
  const { pours, problems } = readPours(textOf(folder, file), file);
  const shown = pours.map((pour) => {
    const found = joined(open, folder, file, pour, opened);
    if ('why' in found) return { pour, curve: null, why: found.why };
    const { shop: own } = opened.shelf;
    const curve = fittedCurve(found.known, own.scale.step, wasteFigure(own.waste));
    return { pour, curve, why: curve === null ? 'it was not weighed, and no mould is known' : null };
  });
  return inUnits(poursResult(file, shown, problems), opened.shelf.shop.units);
}

/** The record with one more row. */
export function pourAdded(text: string, file: string, row: PourRow): { text: string; name: string } {
  const record = text.trim() === '' ? newRecord() : text;
  const name = String(row.pour ?? nextName(readPours(record, file).pours));
  const body = record.endsWith('\n') ? record : `${record}\n`;
  const next = `${body}${pourLine({ ...row, pour: name }, body, file)}\n`;
  // What cannot be read back is refused before it is kept.
  readPours(next, file);
  return { text: next, name };
}

export function poursTaught(
  open: Opener,
  folder: Folder,
  file: string,
  shop: string | null,
  today: string,
): { result: FitResult; learned: string; system: UnitSystem } {
  const opened = open.shop(folder, shop, false);
  const { shelf } = opened;
  const { pours, problems } = readPours(textOf(folder, file), file);
  const measured: Measured[] = [];
  const used: Pour[] = [];
  const left: { pour: string; why: string }[] = [];
  for (const pour of pours) {
    const found = joined(open, folder, file, pour, opened);
    const one = 'why' in found ? null : measuredPour(found.known, shelf.shop.scale.step, wasteFigure(shelf.shop.waste));
    if (one === null) left.push({ pour: pour.name, why: 'why' in found ? found.why : 'nothing in it can be compared' });
    else {
      measured.push(one);
      used.push(pour);
    }
  }
  if (measured.length === 0) {
    throw new InputProblems([
      {
        code: 'field-missing',
        severity: 'error',
        where: { file },
        expected: 'a pour with its blend and a weight, a set time or a demoulding time',
        hint: left.map((l) => `pour ${l.pour}: ${l.why}`).join(' '),
      },
    ]);
  }
  const fit = fitFigures(measured);
  const learned = learnedFile(fit, shelf, { file, pours: used.length, fitted: today });
  const system = shelf.shop.units;
  const result = fitResult(fit, shelf, { file, used, left, written: null, named: false, problems });
  return {
    result: inUnits(result, system),
    system,
    learned: stringify(learned, { lineWidth: 0, collectionStyle: 'any' }),
  };
}

type Joined = { readonly known: KnownPour } | { readonly why: string };

function joined(open: Opener, folder: Folder, record: string, pour: Pour, { shelf }: Open): Joined {
  try {
    return {
      known: knownPour(
        pour,
        pour.brief === null ? null : sourceOf(open, folder, beside(record, pour.brief), shelf),
        shelf,
      ),
    };
  } catch (error) {
    if (!(error instanceof InputProblems)) throw error;
    return { why: error.problems.map(explain).join(' ') };
  }
}

function sourceOf(
  open: Opener,
  folder: Folder,
  file: string,
  shelf: Open['shelf'],
): { conditions: Conditions; parts: readonly Part[] | null } {
  const read = open.brief(folder, file, shelf);
  return read.kind === 'brief'
    ? { conditions: read.brief.setting.conditions, parts: null }
    : { conditions: read.recipe.setting.conditions, parts: read.recipe.parts };
}

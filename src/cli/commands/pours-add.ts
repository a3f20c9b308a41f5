import { dirname, relative, resolve } from 'node:path';
import { readAmounts } from '../../core/brief/read-amounts.js';
import type { Shelf } from '../../core/brief/shelf.js';
import { InputProblems, type Problem, refuse } from '../../core/problems/problem.js';
import { explain } from '../../core/problems/words.js';
import { csvLine } from '../../core/reading/csv.js';
import type { PourResult } from '../../core/report/pours-schema.js';
import { type Day, isoDate } from '../../core/shop/order-calendar.js';
import { blendText, readBlend, type Weighing, weightsText } from '../../core/shop/pours-cells.js';
import { newRecord, POUR_COLUMNS, type PourColumn, type PourRow, pourLine } from '../../core/shop/pours-columns.js';
import { nextName, type Pour, readPours } from '../../core/shop/pours-record.js';
import { weighingSlips } from '../../core/shop/pours-slips.js';
import { problemIn } from '../../core/units/marked.js';
import { appendLine } from '../append-log.js';
import { isThere } from '../files.js';
import type { OpenShop } from '../load.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { mixedFile } from './mixed-file.js';
import { askForPour } from './pours-ask.js';
import { joined, openPourShop, openRecord, recordFile, sourceReader } from './pours-open.js';
import { requirePour } from './pours-show.js';
import { printJson, unitsOf } from './view.js';

/** Options of the command line by the column they fill. */
const OPTIONS: Readonly<Record<Exclude<PourColumn, 'weights'>, string>> = {
  pour: 'pour',
  date: 'date',
  brief: 'brief',
  blend: 'blend',
  'batch g': 'batch',
  pieces: 'pieces',
  'room C': 'roomTemperature',
  'room %': 'roomHumidity',
  'set min': 'set',
  'demould min': 'demould',
  flow: 'flow',
  bubbles: 'bubbles',
  cracks: 'cracks',
  note: 'note',
};

type Said = Readonly<Partial<Record<PourColumn, string>>>;

/** Appends one row to the record: from the options, or by asking when a person is there and no option says anything. */
export async function poursAdd(call: Call): Promise<ExitCode> {
  const { open } = await openPourShop(call, false);
  const { file, namedIn } = recordFile(call, open);
  const flags = saidByOptions(call);
  const asked = Object.keys(flags).filter((column) => column !== 'pour').length === 0;
  if (asked && !call.io.interactive) {
    refuse({
      code: 'field-missing',
      where: { path: 'pours add' },
      expected: 'what to write, such as --brief planter.yaml --weight "1 h: 285"; pourwright pours --help lists all',
    });
  }
  if (flags.pour?.startsWith('#')) {
    const expected = 'a name that begins with something else: a line of the record that begins with # is a remark';
    refuse({ code: 'option-invalid', where: { path: '--pour' }, found: flags.pour, expected });
  }
  const known = isThere(file) ? (await openRecord(call, file, namedIn)).pours : [];
  const earlier = flags.pour === undefined ? undefined : known.find((p) => p.name === flags.pour);
  const check = (said: Said): Pour => checked(said, open.shelf);
  if (!asked) byOption(() => check(flags));
  const checkFile = async (answer: Said): Promise<void> => {
    check(answer);
    await blendOf(call, answer, open);
  };
  const said = asked ? await askForPour(call.io, { flags, earlier, shop: open.shop, check: checkFile }) : flags;
  if (said === null) {
    call.io.err('pourwright: nothing was written\n');
    return 1;
  }
  if (flags.pour !== undefined && earlier === undefined && said.brief === undefined && said.blend === undefined) {
    // A name that is not there, and nothing that begins a new pour: most likely a slip.
    requirePour(flags.pour, known, file);
  }
  const row = rowOf(said, check(said), await blendOf(call, said, open), { file, isNew: earlier === undefined, call });
  let name = '';
  let line = '';
  appendLine(file, newRecord(), (text) => {
    name = said.pour ?? nextFree(text, file);
    line = pourLine({ ...row, pour: name }, text, file);
    return line;
  });
  report(call, { format: 'pourwright.pour/1', file, pour: name, line });
  const { date, weights } = check(said);
  if (date !== null && isoDate(date) > call.io.today())
    call.io.err(`pourwright: warning: ${explain(dayToCome(file, date))}\n`);
  await warnOfSlips(call, open, { file, name, added: weights });
  return 0;
}

function report(call: Call, result: PourResult): void {
  if (call.options.json === true) {
    printJson(call.io, result);
    return;
  }
  const again = `pourwright pours add --pour ${result.pour} --weight "3 d: 249 g"`;
  call.io.out(`Pour ${result.pour} is in ${result.file}. Weigh it again on later days: ${again}\n`);
}

const dayToCome = (file: string, date: Day): Problem => ({
  code: 'pour-implausible',
  severity: 'warning',
  where: { file },
  found: isoDate(date),
  expected: 'today or a day before',
  hint: 'it is written all the same; if it was a slip, put it right in the record by hand',
});

/** Tells of weighings just written that are most likely slips; a pour that does not say what it was made of is let be. */
async function warnOfSlips(
  call: Call,
  { shelf, shop }: OpenShop,
  { file, name, added }: { readonly file: string; readonly name: string; readonly added: readonly Weighing[] },
): Promise<void> {
  if (added.length === 0) return;
  try {
    const pour = (await openRecord(call, file, undefined)).pours.find((p) => p.name === name);
    const found = pour && (await joined(pour, sourceReader(call, file, shelf), shelf));
    if (found === undefined || 'problems' in found) return;
    for (const problem of weighingSlips(found.known, added)) {
      const words = explain(problemIn({ ...problem, where: { file } }, unitsOf(call, shop.units)));
      call.io.err(`pourwright: ${problem.severity}: ${words}\n`);
    }
  } catch (error) {
    // Mistakes elsewhere in the record are told where it is read; the row is in it.
    if (!(error instanceof InputProblems)) throw error;
  }
}

function saidByOptions(call: Call): Said {
  const said: Partial<Record<PourColumn, string>> = {};
  for (const [column, option] of Object.entries(OPTIONS) as [PourColumn, string][]) {
    const value = call.options[option];
    if (value !== undefined && String(value).trim() !== '') said[column] = String(value).trim();
  }
  const weights = call.options.weight as string[] | undefined;
  if (weights !== undefined) said.weights = weights.join('; ');
  return said;
}

/** What was said in core units, read by the very reader that reads the file. Throws InputProblems. */
function checked(said: Said, shelf: Shelf): Pour {
  const cells = POUR_COLUMNS.map((column) => said[column] ?? '');
  // A cell before them, so that a text that begins with # is not taken for a remark.
  const text = `${csvLine(['begin', ...POUR_COLUMNS], ',')}\n${csvLine(['.', ...cells], ',')}\n`;
  const [pour] = readPours(text, 'pours add').pours;
  if (said.blend !== undefined) readAmounts({ amounts: readBlend(said.blend) }, shelf, '', () => ({ path: 'blend' }));
  return pour!;
}

const kebab = (option: string): string => option.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** Problems of a cell, told at the option that said it. */
function byOption(read: () => unknown): void {
  const option = (column: string): string =>
    column === 'weights' ? '--weight' : `--${kebab(OPTIONS[column as keyof typeof OPTIONS] ?? column)}`;
  try {
    read();
  } catch (error) {
    if (!(error instanceof InputProblems)) throw error;
    throw new InputProblems(
      error.problems.map((p) => (p.where?.path === undefined ? p : { ...p, where: { path: option(p.where.path) } })),
    );
  }
}

interface Writing {
  readonly file: string;
  readonly isNew: boolean;
  readonly call: Call;
}

const rounded = (value: number | null): number | null => (value === null ? null : Number(value.toFixed(2)));

/** Numbers in the units of their columns, texts as they were said. */
function rowOf(said: Said, pour: Pour, blend: string | null, { file, isNew, call }: Writing): PourRow {
  const date = pour.date === null ? (isNew ? call.io.today() : '') : isoDate(pour.date);
  return {
    date,
    brief: said.brief === undefined ? '' : asSeenFrom(file, said.brief),
    blend: said.blend ?? blend,
    'batch g': rounded(pour.batchGrams),
    pieces: pour.pieces,
    'room C': rounded(pour.celsius),
    'room %': rounded(pour.humidity === null ? null : 100 * pour.humidity),
    'set min': rounded(pour.setMinutes),
    'demould min': rounded(pour.demouldMinutes),
    weights: weightsText(pour.weights),
    flow: pour.flow,
    bubbles: pour.bubbles,
    cracks: pour.cracks,
    note: pour.note,
  };
}

/** A file named where the command is run, as it is found from the record's folder. */
const asSeenFrom = (record: string, name: string): string =>
  relative(resolve(dirname(record)), resolve(name)).replaceAll('\\', '/');

/** What the brief's proposal or the recipe says was mixed, so that the row tells it even when the file changes later. */
async function blendOf(call: Call, said: Said, open: OpenShop): Promise<string | null> {
  if (said.brief === undefined || said.blend !== undefined) return null;
  const { mixed } = await mixedFile(call, said.brief, open.shelf, { draws: 0 });
  return blendText(mixed.parts.map((p) => ({ material: p.material, grams: p.batchGrams })));
}

/** The next free number; a record with a mistake in it can still be added to. */
function nextFree(text: string, file: string): string {
  try {
    return nextName(readPours(text, file).pours);
  } catch (error) {
    if (!(error instanceof InputProblems)) throw error;
    return `line-${text.split('\n').length}`;
  }
}

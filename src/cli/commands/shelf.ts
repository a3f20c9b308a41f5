import { cementFromOxides, readOxides } from '../../core/materials/cement-phases.js';
import type { Figure, Gap } from '../../core/materials/figure.js';
import { isGap } from '../../core/materials/gap.js';
import { overlay } from '../../core/materials/overlay.js';
import type { Material } from '../../core/materials/schema.js';
import { type MaterialTable, materialTable } from '../../core/materials/table.js';
import { KINDS, type Kind } from '../../core/materials/words.js';
import { nearestWord } from '../../core/problems/nearest.js';
import { refuse } from '../../core/problems/problem.js';
import { explain } from '../../core/problems/words.js';
import { figureIn } from '../../core/report/figure-units.js';
import { problemResult } from '../../core/report/problem-result.js';
import { problemIn, wordsIn } from '../../core/units/marked.js';
import type { UnitSystem } from '../../core/units/print.js';
import { readText } from '../files.js';
import { readAs } from '../kind-of-file.js';
import { openShop, shippedTable } from '../load.js';
import type { Sheet } from '../render/page.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { printJson, printSheet, unitsOf } from './view.js';

export async function shelfVerb(call: Call): Promise<ExitCode> {
  const { io, options } = call;
  if (typeof options['check'] === 'string') return check(call, options['check']);
  const { table } = await openShop({ shop: null, materials: options['materials'] as string[] | undefined }, io);
  const [word] = call.operands;
  if (word !== undefined) {
    const material = table.get(word);
    if (options['json'] === true)
      printJson(io, { format: 'pourwright.material/1', material, sources: cited(material, table) });
    else printSheet(io, (page) => showOne(page, material, table, unitsOf(call)));
    return 0;
  }
  const kind = options['kind'] === undefined ? undefined : requireKind(String(options['kind']));
  const listed = kind === undefined ? table.materials : table.byKind(kind);
  if (options['json'] === true)
    printJson(io, { format: 'pourwright.shelf/1', materials: listed, sources: table.sources });
  else printSheet(io, (page) => showList(page, listed, unitsOf(call)));
  return 0;
}

function requireKind(word: string): Kind {
  const kind = KINDS.find((k) => k === word.toLowerCase());
  if (kind !== undefined) return kind;
  const nearest = nearestWord(word, KINDS);
  refuse({
    code: 'option-invalid',
    where: { path: '--kind' },
    found: word,
    expected: KINDS.join(', '),
    ...(nearest === undefined ? {} : { nearest }),
  });
}

async function check(call: Call, file: string): Promise<ExitCode> {
  const { materials, sources } = shippedTable();
  const read = await readText(file, call.io.stdin);
  const { file: name } = read;
  const before = materialTable({ materials, sources });
  const table = await readAs(['materials'], read, () => overlay(before, read.text, name));
  const own = [...table.own];
  const replaced = own.filter((id) => before.byId(id) !== undefined);
  const gaps = own.flatMap((id) => (isGap(table.byId(id)!.density) ? [id] : []));
  if (call.options['json'] === true) {
    const warnings = table.notes.map(problemResult);
    printJson(call.io, {
      format: 'pourwright.check/1',
      file: name,
      materials: own,
      replaced,
      withoutDensity: gaps,
      warnings,
    });
    return 0;
  }
  printSheet(call.io, (page) => {
    page.paragraph(`${name}: ${own.length} ${own.length === 1 ? 'material' : 'materials'}, all in order.`);
    if (replaced.length > 0) page.paragraph(`In place of the shipped ones: ${replaced.join(', ')}.`);
    if (gaps.length > 0) page.paragraph(`Without a density, so no blend can use them yet: ${gaps.join(', ')}.`);
    for (const note of table.notes) page.paragraph(`${note.severity}: ${explain(problemIn(note, unitsOf(call)))}`);
  });
  return 0;
}

/** Figures kept of what is told in another unit than the table's. */
const DIGITS = 3;

const density = (figure: Figure | Gap | undefined, system: UnitSystem): string =>
  figure === undefined || isGap(figure)
    ? '–'
    : Number(figureIn(figure.unit, system).of(figure.value).toPrecision(DIGITS)).toString();

/** What a material is for; its own words have their sizes in metric, unmarked. */
const useOf = ({ use = '' }: Material, system: UnitSystem): string =>
  wordsIn(use.replace(/\d[\d.]* (?:mm|cm)\b/g, '⟦$&⟧'), system);

function showList(page: Sheet, materials: readonly Material[], system: UnitSystem): void {
  for (const kind of KINDS) {
    const some = materials.filter((m) => m.kind === kind);
    if (some.length === 0) continue;
    page.heading(kind);
    const wide = page.width >= 72;
    page.table(
      some.map((m) => [
        m.id,
        density(m.density, system),
        ...(wide ? [density(m.bulkDensity, system), useOf(m, system)] : []),
      ]),
      ['left', 'right', 'right', 'left'],
      ['', system === 'us' ? 'lb/ft³' : 'g/cm³', ...(wide ? ['loose', ''] : [])],
    );
  }
  page.line();
  page.paragraph('pourwright shelf MATERIAL shows one with its figures and sources.');
}

interface Row {
  readonly field: string;
  readonly figure: Figure | Gap;
}

/** Every figure of a material, with the path it stands at. */
function figuresOf(value: unknown, path = ''): Row[] {
  if (value === null || typeof value !== 'object') return [];
  if ('value' in value && ('unit' in value || 'reason' in value))
    return [{ field: path, figure: value as Figure | Gap }];
  return Object.entries(value).flatMap(([key, inner]) => {
    if (key === 'others') return [];
    const step = Array.isArray(value) ? `${path} ${Number(key) + 1}` : path === '' ? key : `${path}.${key}`;
    return figuresOf(inner, step);
  });
}

const cited = (material: Material, table: MaterialTable) => {
  const keys = new Set(
    [...JSON.stringify(material).matchAll(/"source":"([^"]+)"/g)].map((match) => match[1]!).filter((k) => k !== 'none'),
  );
  return Object.fromEntries([...keys].map((key) => [key, table.sources[key]]));
};

/** A figure with its likely range and its unit; as the table has it, or in US units. */
function figureText(page: Sheet, { value, low, high, unit }: Figure, system: UnitSystem): string {
  const shown = figureIn(unit, system);
  const told = (size: number): string =>
    String(shown.unit === unit ? size : Number(shown.of(size).toPrecision(DIGITS)));
  return `${page.paint.bold(told(value))} ${shown.unit} (${told(low)} to ${told(high)})`;
}

function showOne(page: Sheet, material: Material, table: MaterialTable, system: UnitSystem): void {
  page.line(page.paint.bold(material.name));
  page.paragraph(page.paint.dim([material.id, material.kind, ...(material.also ?? [])].join(' · ')));
  if (material.use !== undefined) page.paragraph(useOf(material, system));
  page.heading('FIGURES (value, likely range, how it was come by)');
  for (const { field, figure } of figuresOf(material)) {
    if (isGap(figure)) {
      page.paragraph(`${field}: not known. ${figure.reason}`, 2, 4);
      continue;
    }
    const source =
      figure.source === 'none' ? '' : `, ${figure.source}${figure.where === undefined ? '' : `, ${figure.where}`}`;
    const note = figure.note === undefined ? '' : ` ${figure.note}.`;
    const text = `${field}: ${figureText(page, figure, system)}; ${figure.status}${source}.${note}`;
    page.paragraph(text, 2, 4);
  }
  const oxides = readOxides(material, (_key, figure) => figure.value);
  if (oxides !== null) {
    const { c3s, c2s, c3a, c4af, heat } = cementFromOxides(oxides);
    const shares = Object.entries({ C3S: c3s, C2S: c2s, C3A: c3a, C4AF: c4af }).map(
      ([phase, percent]) => `${phase} ${percent.toFixed(1)} %`,
    );
    page.heading('POTENTIAL PHASES, by Bogue from its oxides');
    page.paragraph(`${shares.join(', ')}; heat of full hydration ${Math.round(heat)} J/g.`, 2);
  }
  page.heading('HAZARDS');
  if (Array.isArray(material.hazards)) {
    if (material.hazards.length === 0)
      page.paragraph('No hazard statement in the sources used. The safety data sheet of your bag decides.', 2);
    for (const h of material.hazards)
      page.paragraph(
        `${h.code} (${h.region}); ${h.status}, ${h.source}.${h.note === undefined ? '' : ` ${h.note}.`}`,
        2,
        4,
      );
  } else page.paragraph(`Not known: ${material.hazards.unknown}`, 2);
  page.paragraph('Read the safety data sheet of the bag you hold: it overrides this table.', 2);
  page.heading('SOURCES');
  for (const [key, source] of Object.entries(cited(material, table))) {
    if (source === undefined) continue;
    const parts = [source.by, source.title, source.year, source.url].filter((part) => part !== undefined);
    page.paragraph(`${key}: ${parts.join(', ')}`, 2, 4);
  }
}

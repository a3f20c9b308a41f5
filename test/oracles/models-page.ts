import { PROPERTIES } from '../../src/core/blend/properties/index.js';
import type { Source } from '../../src/core/materials/schema.js';
import { unmarked } from '../../src/core/problems/marks.js';
import { type Check, checkSummary } from '../../src/core/science/provenance/check.js';
import { MODELS, type Model } from '../../src/core/science/provenance.js';

const STANDING = {
  published: 'published',
  'from-memory': 'published, recalled',
  ours: 'ours',
} as const satisfies Record<Model['standing'], string>;

const percent = (error: number): string => `${(100 * error).toFixed(Math.abs(error) < 0.1 ? 2 : 1)} %`;

const cell = (text: string): string => text.replaceAll('|', '\\|');

function row(model: Model, checks: readonly Check[]): string {
  const { checks: count, meanError, worst } = checkSummary(checks);
  const properties = PROPERTIES.filter((p) => p.models.includes(model.id)).map((p) => p.id);
  const used = [...new Set(properties.map((id) => id.replace(/^weight-day-.*/, 'weight by day')))];
  return [
    `[${cell(model.title)}](#${model.id})`,
    STANDING[model.standing],
    used.length === 0 ? '' : used.join(', '),
    count === 0 ? 'none found' : String(count),
    meanError === null ? '' : percent(meanError),
    worst === null ? '' : `${percent(worst.error!)} (${cell(worst.name)})`,
  ].join(' | ');
}

function cited(key: string, source: Source | undefined): string {
  if (source === undefined) throw new RangeError(`no source "${key}"`);
  const parts = [source.by, source.title, source.year, source.note].filter((part) => part !== undefined);
  return source.url === undefined ? parts.join(', ') : `[${parts.join(', ')}](${source.url})`;
}

function section(model: Model, checks: readonly Check[], sources: Readonly<Record<string, Source>>): string {
  const symbols = Object.entries(model.symbols).map(([symbol, meaning]) => `\`${symbol}\` ${meaning}`);
  const shown = checks.map((c) => {
    const error = c.error === null ? '' : ` (${c.error >= 0 ? '+' : ''}${percent(c.error)})`;
    const note =
      c.standing === 'fitted' ? ', used to set a constant' : c.standing === 'from-memory' ? ', recalled' : '';
    return `${c.name}: printed ${c.printed} ${c.unit}, ours ${c.ours}${error}${note}`.replace(/ +/g, ' ');
  });
  return [
    `### <a id="${model.id}"></a>${model.title}`,
    '',
    `\`${model.equation}\` [${model.unit}]`,
    '',
    ...(symbols.length > 0 ? [`- Symbols: ${symbols.join('; ')}`] : []),
    `- Holds for: ${unmarked(model.validity)}`,
    ...model.misfits.map((m) => `- Known to miss: ${unmarked(m)}`),
    ...model.sources.map((key) => `- Source: ${cited(key, sources[key])}`),
    ...(shown.length > 0
      ? ['', '<details><summary>Checks</summary>', '', ...shown.map((s) => `- ${s}`), '', '</details>']
      : []),
    '',
  ].join('\n');
}

/** materials/MODELS.md: each model with its source, what it was checked against and the error found. */
export function modelsPage(
  checks: Readonly<Record<string, readonly Check[]>>,
  sources: Readonly<Record<string, Source>>,
): string {
  const all = Object.values(checks).flat();
  const { checks: count } = checkSummary(all);
  return [
    '# The models and how far they were checked',
    '',
    '<!-- Made by `npm run models` from src/core/science/provenance and test/oracles; a test keeps it fresh. -->',
    '',
    `${MODELS.length} models, ${count} published checks. \`npm run accuracy\` prints every figure beside its source; \`pourwright`,
    'why PROPERTY` prints what one property rests on. An error is what the model misses the printed figure by. "Published, recalled"',
    'means that the equation is published and its form or constants were recalled, not looked up; "ours" was made by this project.',
    'Figures marked "used to set a constant" are no checks and count into no error.',
    '',
    '| Model | Standing | Used for | Published checks | Mean error | Worst error |',
    '|---|---|---|---|---|---|',
    ...MODELS.map((m) => `| ${row(m, checks[m.id] ?? [])} |`),
    '',
    ...MODELS.map((m) => section(m, checks[m.id] ?? [], sources)),
  ].join('\n');
}

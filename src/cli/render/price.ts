import { cautionsTogether } from '../../core/report/cautions-together.js';
import type { PricedBlend, PriceResult, SaleResult } from '../../core/report/price-schema.js';
import type { Wording } from '../../core/report/print.js';
import { printFine } from '../../core/report/weighed.js';
import { printMoney } from '../../core/units/money.js';
import { printQuantity } from '../../core/units/print.js';
import { cautionList, stopLines } from './cautions.js';
import type { Sheet } from './page.js';
import { warningLines } from './warnings.js';

const NAMES: Readonly<Record<string, string>> = {
  materials: 'materials',
  colour: 'colour',
  mould: 'mould wear',
  labour: 'your work',
  failed: 'pieces that fail',
  sealer: 'sealer',
  packing: 'packing',
  postage: 'postage',
};

/** Savings that print as nothing are not worth a line. */
const LEAST_DECIMALS = 4;
const MOST_LEVERS = 8;

const percent = (share: number): string => `${Number((100 * share).toPrecision(3))} %`;
const pieces = (n: number): string => (n === 1 ? '1 piece' : `${n} pieces`);

export function renderPrice(page: Sheet, result: PriceResult, wording: Wording): void {
  const money = (amount: string): string => printMoney(amount, result.currency, result.decimals);
  const mass = (grams: number): string => printQuantity(grams, 'mass', { system: wording.system });
  const weighed = (grams: number): string => printFine(grams, result.step, wording.system);
  result.blends.forEach((blend, i) => {
    if (i > 0) page.line();
    oneBlend(page, blend, result, money, mass, weighed);
  });
  for (const { title, warnings } of result.unpriced ?? []) {
    page.line();
    page.line(page.paint.bold(title));
    for (const { message } of warnings) page.paragraph(`${page.paint.red('NOT PRICED')} ${message}`, 0, 2);
  }
  if (result.comparison !== null) comparison(page, result, money);
  cautionList(page, cautionsTogether(result.blends.map((b) => b.cautions)), { full: false });
}

type Say<T> = (value: T) => string;

function oneBlend(
  page: Sheet,
  blend: PricedBlend,
  result: PriceResult,
  money: Say<string>,
  mass: Say<number>,
  weighed: Say<number>,
): void {
  const { bold, dim, red } = page.paint;
  page.line(bold(blend.title));
  const about = [
    ...(blend.invented ? ['invented example'] : []),
    blend.batchPieces === 1 ? 'one piece a batch' : `${blend.batchPieces} pieces a batch`,
    ...(blend.waste > 0 ? [`${percent(blend.waste)} waste`] : []),
    ...(blend.breakage > 0 ? [`${percent(blend.breakage)} of pieces fail`] : []),
  ];
  page.paragraph(dim(about.join(' · ')));
  stopLines(page, blend.cautions);
  warningLines(page, blend.warnings);

  page.heading(blend.per === 'piece' ? 'COST OF ONE PIECE' : 'COST OF THE BATCH AS WRITTEN (no mould, so no piece)');
  page.table(
    [
      ...blend.lines.map((line) => [
        line.group === 'colour' ? `${line.name} (colour)` : line.name,
        line.grams !== null ? weighed(line.grams) : beside(line.id, blend, mass),
        line.amount,
      ]),
      [bold('cost'), '', bold(money(blend.total))],
    ],
    ['left', 'right', 'right'],
  );
  for (const gap of blend.gaps) page.paragraph(`${red('NOT COUNTED')} ${gap}`, 2, 4);
  postageNotes(page, blend, money, mass);

  page.heading('PRICE');
  page.table(
    [
      sale('covers everything', blend.covering, money),
      ...(blend.at === null ? [] : [sale('as asked', blend.at, money)]),
    ],
    ['left', 'right', 'right', 'right', 'right', 'right'],
    ['', 'price', 'fee', 'left', 'margin', 'your hour'],
  );
  if (!blend.complete) page.paragraph('The price leaves out what is not counted above.', 2);
  savings(page, blend, result, mass);
  packsOf(page, blend, result, money, mass);
}

function beside(id: string, blend: PricedBlend, mass: Say<number>): string {
  if (id === 'labour') return printQuantity(Math.round(60 * blend.hours * (1 - blend.breakage)), 'setTime');
  if (id === 'failed') return percent(blend.breakage);
  if (id === 'postage' && blend.posted?.step) return `to ${mass(blend.posted.step.upTo)}`;
  return '';
}

const sale = (name: string, at: SaleResult, money: Say<string>): string[] => [
  name,
  money(at.price),
  at.fee,
  at.left,
  at.margin === null ? '–' : percent(at.margin),
  at.hourly === null ? '–' : money(at.hourly),
];

function postageNotes(page: Sheet, blend: PricedBlend, money: Say<string>, mass: Say<number>): void {
  const { posted } = blend;
  if (posted === null) return;
  const weight = mass(Math.round(posted.weight));
  const parts = [`Parcel: ${weight}, dry and packed.`];
  if (posted.heavier === 'beyond')
    parts.push('By the likely range of its weight it may be heavier than your table goes.');
  else if (posted.heavier !== null) {
    parts.push(`By the likely range of its weight it may cost ${money(posted.heavier.price)} to post.`);
  }
  page.paragraph(parts.join(' '), 2);
}

function savings(page: Sheet, blend: PricedBlend, result: PriceResult, mass: Say<number>): void {
  const digits = Math.max(result.decimals, LEAST_DECIMALS);
  const money = (exact: string): string => printMoney(exact, result.currency, digits);
  const worth = (s: { exact: string }): boolean => Number(s.exact) >= 0.5 * 10 ** -digits;
  const tenth = blend.tenth.filter(worth).slice(0, MOST_LEVERS);
  if (tenth.length > 0) {
    page.heading('WHAT SAVES MOST: a tenth less of each, on every piece');
    page.table(
      tenth.map((s) => [s.name, money(s.exact)]),
      ['left', 'right'],
    );
  }
  const others = blend.alternatives.filter(worth);
  if (others.length === 0) return;
  page.heading('OTHER WAYS, on every piece');
  page.table(
    others.map((s) => {
      const by = s.grams === undefined ? '' : ` (${mass(Math.ceil(s.grams))} less)`;
      return [`${s.name}${by}${s.id.startsWith('packs:') ? `, over ${pieces(result.run)}` : ''}`, money(s.exact)];
    }),
    ['left', 'right'],
  );
}

function packsOf(page: Sheet, blend: PricedBlend, result: PriceResult, money: Say<string>, mass: Say<number>): void {
  page.heading(`PACKS for ${pieces(result.run)}, from an empty shelf`);
  for (const choice of blend.packs) {
    const buy = choice.buy.map(({ text, count }) => `${count} × ${text}`).join(' and ');
    const left = choice.left >= 1 ? `, ${mass(Math.round(choice.left))} left over` : '';
    const sure = choice.proven ? '' : ' (the cheapest found)';
    page.paragraph(`${choice.name}: ${buy}, ${money(choice.cost)}${sure}${left}. ${largePack(choice)}`, 2, 4);
  }
}

function largePack({ large }: PricedBlend['packs'][number]): string {
  if (large === null) return '';
  const { always, first } = large;
  if (always === 1) return `“${large.large}” is never dearer than “${large.small}”.`;
  if (always !== null) {
    const waves = first !== null && first < always ? `, now and then from ${first}` : '';
    return `“${large.large}” costs no more than “${large.small}” from ${pieces(always)} on${waves}.`;
  }
  return first === null
    ? `“${large.large}” never pays against “${large.small}”.`
    : `“${large.large}” pays against “${large.small}” only for some numbers, the first is ${pieces(first)}.`;
}

function comparison(page: Sheet, result: PriceResult, money: Say<string>): void {
  const { bold } = page.paint;
  const both = result.comparison!;
  const titles = result.blends.map((b) => b.title);
  page.heading('SIDE BY SIDE: cost of one piece');
  const mark = (i: number, text: string) => (both.cheapest.includes(i) ? bold(text) : text);
  page.table(
    [
      ...both.groups.map(({ group, amounts }) => [NAMES[group]!, ...amounts]),
      ['cost', ...both.totals.map((t, i) => mark(i, money(t)))],
      ['price that covers', ...result.blends.map((b) => money(b.covering.price))],
      ...(both.once.some((o) => Number(o) !== 0) ? [['once, before the first', ...both.once.map(money)]] : []),
    ],
    ['left', ...titles.map(() => 'right' as const)],
    ['', ...titles],
  );
  for (const { a, b, byTheGram, wholePacks } of both.pairs) {
    const pair = `“${titles[a]}” and “${titles[b]}”`;
    page.paragraph(`${pair}, materials by weight: ${evenWords(byTheGram, titles)}`, 2, 4);
    page.paragraph(`${pair}, whole packs from an empty shelf: ${packWords(wholePacks, titles, result.run)}`, 2, 4);
  }
}

type Even = NonNullable<PriceResult['comparison']>['pairs'][number]['byTheGram'];

/** Staircases cross often: whether it was cheaper before, and which is for the run. */
function packWords(
  even: NonNullable<PriceResult['comparison']>['pairs'][number]['wholePacks'],
  titles: readonly string[],
  run: number,
): string {
  const { cheaper, from, upTo, first, atRun } = even;
  if (cheaper === null || from === null || (first === null && from <= run)) return evenWords(even, titles);
  const name = `“${titles[cheaper]}”`;
  const before = first === null ? '' : `, now and then from ${first}`;
  const then = atRun === cheaper ? 'too' : atRun === null ? 'they cost the same' : `“${titles[atRun]}” is`;
  return `${name} is the cheaper for good from ${pieces(from)} on${before}; for ${pieces(run)} ${then} (looked at up to ${pieces(upTo!)}).`;
}

function evenWords(even: Even, titles: readonly string[]): string {
  const range = even.upTo === null ? '' : ` (looked at up to ${pieces(even.upTo)})`;
  if (even.cheaper === null || even.from === null) return `they cost the same${range}.`;
  const name = `“${titles[even.cheaper]}”`;
  if (even.from === 1) return `${name} is the cheaper from the first piece on${range}.`;
  return `${name} is the cheaper from ${pieces(even.from)} on${range}.`;
}

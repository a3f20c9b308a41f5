import type { OrderResult } from '../../core/report/order-schema.js';
import { printMinutes, significant } from '../../core/report/print.js';
import { OVER_A_YEAR } from '../../core/units/foretold.js';
import { printMoney } from '../../core/units/money.js';
import { printQuantity } from '../../core/units/print.js';
import { ownFigureLine, type View } from './assessment.js';
import { cautionList, stopLines } from './cautions.js';
import type { Sheet } from './page.js';
import { warningLines } from './warnings.js';

export interface OrderView extends View {
  /** Show the timetable with the moulds that are to be bought. */
  readonly withMoulds: boolean;
}

const count = (n: number, one: string, many = `${one}s`): string => (n === 1 ? `1 ${one}` : `${n} ${many}`);
const NEVER = 'never';

export function renderOrder(page: Sheet, result: OrderResult, view: OrderView): void {
  const { bold, dim } = page.paint;
  page.line(bold(result.title));
  const about = [
    ...(result.invented ? ['invented example'] : []),
    `from ${result.start}`,
    `${result.ready} by ${result.due}`,
  ];
  page.paragraph(dim(about.join(' · ')));
  stopLines(page, result.cautions);
  warningLines(page, result.warnings);
  ownFigureLine(page, result.ownFigures);
  verdict(page, result, view);
  pieces(page, result, view);
  timetable(page, result, view);
  moulds(page, result, view);
  packs(page, result, view);
  cautionList(page, result.cautions, { full: view.fullCautions });
}

function verdict(page: Sheet, result: OrderResult, view: OrderView): void {
  const { bold, green, red } = page.paint;
  const { moulds, careful } = result;
  page.heading('CAN IT BE MET?');
  const last = result.lastReady;
  const when = last === null ? 'Not every piece can be made ready.' : `The last piece is ${result.ready} on ${last}.`;
  page.paragraph(`${result.met ? green('YES') : red('NO')}, with the moulds on hand. ${when}`, 2);
  if (moulds.status === 'buy') {
    const buy = moulds.buy.map((b) => `${count(b.moulds, 'more mould')} for ${b.title}`).join(', ');
    const few = moulds.fewest
      ? 'Fewest that make it in this way of working'
      : 'Enough to make it (fewer may do; the search stopped at its limit)';
    const sum = moulds.cost === null ? '' : ` (${money(moulds.cost, view)})`;
    page.paragraph(`${few}: ${bold(buy)}${sum}; the last piece is then ${result.ready} on ${moulds.lastReady}.`, 2);
  }
  if (moulds.status === 'no-help') {
    const soonest = moulds.lastReady === null ? 'no day' : moulds.lastReady;
    page.paragraph(
      `More moulds do not make it: even with one for every piece the last is ${result.ready} on ${soonest}.`,
      2,
    );
  }
  const slow = 'Should it stiffen early, set late and dry slowly,';
  const late =
    careful.lastReady === null
      ? 'not every piece can be poured and made ready'
      : `the last piece is ${result.ready} on ${careful.lastReady}`;
  page.paragraph(
    `${slow} ${late}. ${careful.met ? 'It still holds.' : 'Your own pours narrow this (pourwright pours).'}`,
    2,
  );
}

const money = (amount: string, view: OrderView): string => printMoney(amount, view.wording.currency);
const mass = (grams: number, view: OrderView): string =>
  printQuantity(significant(grams, 4), 'mass', { system: view.wording.system });
type Range = OrderResult['items'][number]['dryDays'];
const untold = ({ why }: Range, otherwise: string): string => (why === OVER_A_YEAR ? why : otherwise);
const minutes = (range: Range): string => (range.likely === null ? untold(range, '–') : printMinutes(range.likely));
const days = (range: Range): string =>
  range.likely === null ? untold(range, NEVER) : `${significant(range.likely, 2)} days`;

function pieces(page: Sheet, result: OrderResult, view: OrderView): void {
  page.heading('PIECES');
  for (const item of result.items) {
    const spare = item.poured > item.pieces ? `, ${item.poured} poured to cover breakage` : '';
    const cost =
      item.costPerPiece === null ? '' : `; materials ${printMoney(item.costPerPiece, view.wording.currency)} a piece`;
    page.paragraph(
      `${page.paint.bold(item.title)}: ${count(item.pieces, 'piece')}${spare}, ${count(item.moulds, 'mould')}${cost}`,
      2,
      4,
    );
    if (item.impossible !== null) {
      page.paragraph(`${page.paint.red('CANNOT BE POURED')}: ${item.impossible}`, 4);
      continue;
    }
    const bowl = `${count(item.perBowl, 'mould')} a bowl (${mass(item.bowlGrams, view)}; limited by ${item.limitedBy === 'pieces' ? 'the number of pieces' : `the ${item.limitedBy}`})`;
    const turns = item.turns === 0 ? '' : `, a mould turns ${item.turns === 1 ? 'once' : `${item.turns} times`} a day`;
    page.paragraph(
      `${bowl}${turns}. Pours for ${minutes(item.workingMinutes)}, demoulds after ${minutes(item.demouldMinutes)}, dry after ${days(item.dryDays)}. Last pour ${item.lastPour ?? NEVER}, last ready ${item.lastReady ?? NEVER}.`,
      4,
    );
    const parts = item.blend.map((i) => `${i.name} ${mass(i.pieceGrams, view)}`).join(', ');
    page.paragraph(page.paint.dim(`One piece: ${parts}`), 4);
  }
}

type PouringDay = OrderResult['days'][number];

const clock = (moment: string): string => moment.slice(11);

/** A day's pours without its date: days that read alike are told once. */
const pattern = (day: PouringDay): string => JSON.stringify(day.pours.map((p) => [clock(p.at), p.title, p.pieces]));

function timetable(page: Sheet, result: OrderResult, view: OrderView): void {
  const bought = view.withMoulds && result.moulds.days !== null;
  const table = bought ? result.moulds.days! : result.days;
  page.heading(bought ? 'TIMETABLE with the moulds bought' : 'TIMETABLE with the moulds on hand');
  const wide = page.width >= 76;
  const rows: string[][] = [];
  for (let i = 0; i < table.length; ) {
    const alike = table.slice(i).findIndex((day) => pattern(day) !== pattern(table[i]!));
    const days = table.slice(i, alike < 0 ? table.length : i + alike);
    rows.push(...dayRows(days, wide, view));
    i += days.length;
  }
  const head = ['', 'water in', 'pour', 'mix', ...(wide ? ['demould from', result.ready] : [])];
  page.table(rows, ['left', 'left', 'left', 'right', 'left', 'left'], head);
}

/** Rows of one day, and below its date those of the days that repeat it. */
function dayRows(days: readonly PouringDay[], wide: boolean, view: OrderView): string[][] {
  const [first, ...same] = days;
  const last = days.at(-1)!;
  const dates = [`${first!.weekday} ${first!.date}`, ...(same.length === 0 ? [] : [`to ${last.weekday} ${last.date}`])];
  const rows = first!.pours.map((pour, i) => {
    const nights = Math.round((Date.parse(pour.demouldAt.slice(0, 10)) - Date.parse(first!.date)) / 86_400_000);
    const free = nights === 0 ? clock(pour.demouldAt) : `${clock(pour.demouldAt)} +${count(nights, 'day')}`;
    const until = last.pours[i]!.ready;
    const ready = same.length === 0 || pour.ready === until ? (pour.ready ?? NEVER) : `${pour.ready} to ${until}`;
    return [
      dates[i] ?? '',
      clock(pour.at),
      `${pour.pieces} × ${pour.title}`,
      mass(pour.grams, view),
      ...(wide ? [free, ready] : []),
    ];
  });
  if (dates.length > rows.length) rows.push([dates[1]!, '', '', '', ...(wide ? ['', ''] : [])]);
  if (same.length > 0) rows[Math.min(1, rows.length - 1)]![0] = `${dates[1]} (${days.length} days)`;
  return rows;
}

function moulds(page: Sheet, result: OrderResult, view: OrderView): void {
  if (result.against.length === 0) return;
  page.heading('MOULDS OR A FASTER BLEND');
  for (const a of result.against) {
    const per = printMoney(a.perPiece.toFixed(6), view.wording.currency);
    const name = page.paint.bold(a.title);
    if (a.stillMoulds === null) {
      page.paragraph(`${name} does not make it, with any number of moulds.`, 2);
      continue;
    }
    const still = a.stillMoulds === 0 ? 'and no more moulds' : `and ${count(a.stillMoulds, 'more mould')}`;
    const better =
      a.cheaper === 'same'
        ? 'Both cost the same.'
        : a.cheaper === 'moulds'
          ? 'Buying moulds is cheaper.'
          : 'The faster blend is cheaper.';
    const even =
      a.breakEvenPieces === null
        ? 'It costs no more by the piece, so moulds never pay.'
        : `Moulds pay from ${count(Math.ceil(a.breakEvenPieces - 1e-9), 'piece')} on, and they stay.`;
    page.paragraph(
      `${count(a.moulds, 'mould')} for ${money(a.mouldsCost, view)}, or ${name}: ${per} more a piece ${still}, ${money(a.blendCost, view)} in this order. ${better} ${even}`,
      2,
      4,
    );
  }
}

function packs(page: Sheet, result: OrderResult, view: OrderView): void {
  page.heading(`TO BUY: ${money(result.materialsCost, view)}`);
  const rows = result.materials.map((m) => {
    const buy =
      m.buy === null
        ? 'no price in the list'
        : m.buy.length === 0
          ? 'enough on the shelf'
          : m.buy.map((b) => `${b.count} × ${b.pack}`).join(', ');
    const left = m.leftover === null || m.leftover <= 0 ? '' : mass(m.leftover, view);
    return [
      m.name,
      mass(m.grams, view),
      ...(page.width >= 76 ? [m.stock > 0 ? mass(m.stock, view) : ''] : []),
      buy,
      m.cost === null || m.buy?.length === 0 ? '' : money(m.cost, view),
      ...(page.width >= 76 ? [left] : []),
    ];
  });
  const head =
    page.width >= 76 ? ['', 'needed', 'on hand', 'packs', 'cost', 'left over'] : ['', 'needed', 'packs', 'cost'];
  page.table(
    rows,
    page.width >= 76 ? ['left', 'right', 'right', 'left', 'right', 'right'] : ['left', 'right', 'left', 'right'],
    head,
  );
  for (const m of result.materials) {
    if (m.spoilt !== null && m.spoilt > 0)
      page.paragraph(
        `${m.name}: ${mass(m.spoilt, view)} is left in opened packs past their ${significant(m.keepsDays!, 2)} days.`,
        2,
      );
    if (m.buy !== null && m.buy.length > 0 && !m.proven)
      page.paragraph(`${m.name}: the search stopped at its limit; a cheaper set of packs may exist.`, 2);
  }
  const ageing = result.materials.filter((m) => (m.leftover ?? 0) > 0 && m.shelfLifeMonths !== null);
  if (ageing.length > 0) {
    const list = ageing.map((m) => `${m.name} ${m.shelfLifeMonths} months`).join(', ');
    page.paragraph(page.paint.dim(`Closed and dry, what is left keeps about: ${list}. Opened bags less.`), 2);
  }
}

import { inUnits } from '../units/marked.js';
import { printQuantity, type UnitSystem } from '../units/print.js';
import { stopsIn } from './barred.js';
import { missedWords, scoopWords, stageMinutes, temperature, timerWords } from './card-print.js';
import type { CardResult, CardWeighing } from './card-schema.js';
import { cardStyle, type Paper } from './card-style.js';
import { RECORD_FIELDS, RECORD_NOTES } from './card-words.js';
import { fillSvg } from './fill-svg.js';
import { type Markup, markup } from './markup.js';
import { mouldCount, wasteTakenOff } from './mould-words.js';
import { printProperty, significant } from './print.js';
import { onScale } from './weighed.js';

export interface CardPage {
  readonly paper: Paper;
  readonly system: UnitSystem;
}

const SEVERITY = { stop: 'STOP', warn: 'Warning', caution: 'Caution', info: 'Note' } as const;

/**
 * The card as one printable page, black on white, that needs nothing from outside: no script, no font, no picture file.
 * All text is escaped where it is put in.
 */
export function cardHtml(told: CardResult, page: CardPage): string {
  const card = inUnits(told, page.system);
  const { html } =
    markup`<html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${`Weigh-out card: ${card.title}`}</title><style>${cardStyle(page.paper, crowdOf(card))}</style></head>
<body><main>
${head(card, page)}
<div class="columns"><div class="weigh">
${weighingTable(card, page)}
${mixing(card)}
</div><div class="side">
${fillSvg(card.layers)}
${timers(card)}
</div></div>
${record(card, page)}
${cautions(card)}
</main></body></html>`;
  return `<!doctype html>\n${html}\n`;
}

const rows = (text: string, letters: number): number => Math.ceil(text.length / letters);

/** Room of a stop under the title, in lines: bold, and framed. Found by printing cards. */
const STOP_LINES = 1.9;

/** Lines the page has to hold at the largest letters; decides how far they shrink. */
export function crowdOf(card: CardResult): number {
  const total = (lines: readonly number[]): number => lines.reduce((s, n) => s + n, 0);
  const weighing = card.weighing.map(
    (w) => 1 + rows(w.text, 58) + 1.1 * total(w.additions.map((a) => rows(a.name, 30))),
  );
  const left = total(weighing) + total(card.mixing.map((m) => rows(m.text, 56))) + 5;
  const right = 15 + 1.5 * card.timers.length;
  const lines = total(othersIn(card).map((c) => rows(c.short, 58)));
  const aid = total(card.cautions.firstAid.map((l) => rows(l.act + l.when, 66)));
  const warnings = 1.3 * total(card.warnings.map((w) => rows(w.message, 110)));
  const stops = STOP_LINES * total(stopsIn(card.cautions).map((c) => rows(c.short, 100)));
  return Math.max(left, right) + 0.4 * (lines + aid) + warnings + stops + (card.expected.length > 0 ? 13 : 10);
}

/** The cautions at the foot of the page: a stop stands under its title. */
const othersIn = ({ cautions: { cautions } }: CardResult) => cautions.filter((c) => c.severity !== 'stop');

const warning = ({ severity, message }: CardResult['warnings'][number]): Markup =>
  severity === 'error'
    ? markup`<p class="warning stop"><b>Do not cast this</b> ${message}</p>`
    : markup`<p class="warning"><b>${severity === 'note' ? 'Note' : 'Warning'}</b> ${message}</p>`;

function head(card: CardResult, { system }: CardPage): Markup {
  const { bowls } = card;
  const about = [
    ...(card.invented ? ['INVENTED EXAMPLE'] : []),
    card.method.name,
    bowls.count === 1 ? 'one bowl' : `make ${bowls.count} bowls alike; this card is for ONE bowl`,
    ...(card.mould === null
      ? []
      : [
          `a bowl fills ${mouldCount(bowls.pieces)} of ${printQuantity(card.mould, 'volume', { system })}${wasteTakenOff(bowls.waste)}`,
        ]),
    `${printQuantity(significant(bowls.grams, 4), 'mass', { system })} of mix, ${printQuantity(Math.round(bowls.cm3), 'volume', { system })}`,
    `water at ${temperature(card.waterTemperature, system)}`,
    `${card.service} service`,
  ];
  const missed = missedWords(card.targets, { system, currency: null });
  return markup`<header><h1>${card.title}</h1><p>${about.join(' · ')}</p>${stopsIn(card.cautions).map((c) => markup`<p class="warning stop"><b>STOP</b> ${c.short}</p>`)}${card.warnings.map(warning)}${missed === null ? null : markup`<p class="warning"><b>Misses</b> ${missed}</p>`}</header>`;
}

function weighingTable(card: CardResult, { system }: CardPage): Markup {
  return markup`<table class="amounts"><caption>Weigh out, as the scale reads. Tare each vessel before its first line; tick what is in.</caption><thead><tr><th></th><th>weigh</th><th>scale reads</th><th>scoops of ${printQuantity(card.scoop, 'volume', { system })}</th></tr></thead>${card.weighing.map(weighingRows)}</table>`;
}

function weighingRows(step: CardWeighing): Markup {
  const rows = step.additions.map((a) => {
    const name = a.apart ? `${a.name} (fine scale)` : a.name;
    return markup`<tr><td><span class="tick"></span>${name}</td><td class="number"><b>${onScale(a.grams, a.step)}</b></td><td class="number">${onScale(a.running, step.scaleStep)}</td><td class="number small">${scoopWords(a)}</td></tr>`;
  });
  return markup`<tbody><tr class="step"><th colspan="4">${step.vesselName}: <span>${step.text}</span></th></tr>${rows}</tbody>`;
}

function mixing(card: CardResult): Markup {
  const steps = card.mixing.map((m) => {
    const time = stageMinutes(m.minutes);
    return markup`<li>${time === '' ? null : markup`<b class="time">${time}</b> `}${m.text}</li>`;
  });
  return markup`<h2>Mix and pour</h2><ol>${steps}</ol>`;
}

function timers(card: CardResult): Markup {
  const rows = card.timers.map((timer) => {
    const { name, value, range } = timerWords(timer);
    return markup`<tr><td>${name}</td><td class="number"><b>${value}</b></td><td class="small">${range}</td></tr>`;
  });
  return markup`<table class="timers"><caption>Clock, from powder meeting water</caption><tbody>${rows}</tbody></table>`;
}

function record(card: CardResult, { system }: CardPage): Markup {
  const weights = card.expected.map(
    (e) =>
      markup`<td>${e.name}<i class="blank"></i><span class="small">expect ${printProperty(e.property, e.grams, { system, currency: null })}</span></td>`,
  );
  const blank = (name: string): Markup => markup`<td>${name}<i class="blank"></i></td>`;
  const shop = card.expected.length === 0 ? null : markup`<table><tbody><tr>${weights}</tr></tbody></table>`;
  return markup`<section class="record"><h2>Write down${card.bowls.count > 1 ? ` (bowl ___ of ${card.bowls.count})` : null}</h2><table><tbody><tr>${RECORD_FIELDS.map(blank)}</tr></tbody></table>${shop}<table><tbody><tr>${RECORD_NOTES.map(blank)}</tr></tbody></table></section>`;
}

function cautions(card: CardResult): Markup {
  const { firstAid, closing } = card.cautions;
  return markup`<section class="cautions"><h2>Cautions</h2><div class="lines"><ul>${othersIn(card).map((c) => markup`<li class="${c.severity}"><b>${SEVERITY[c.severity]}</b> ${c.short}</li>`)}</ul><p class="aid"><b>First aid.</b> ${firstAid.map((l) => markup`<b>${l.when}:</b> ${l.act} `)}</p></div><p class="closing"><b>${closing}</b></p></section>`;
}

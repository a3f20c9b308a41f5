import type { Markup } from './markup.js';

export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

/** Print size, and mm of paper that hold the text: [width, height] less the margins. */
const SIZE: Readonly<Record<Paper, string>> = { a4: 'A4 portrait', letter: 'letter portrait' };
const MARGIN = '7mm';

/** Letters shrink with what the page has to hold, down to a size that still reads at the bench. Points. */
const LARGEST = 10;
const SMALLEST = 6.4;

/** Lines that fit at the largest size, even in wide letters (DejaVu Sans). Found by printing many cards. */
const ROOM: Readonly<Record<Paper, number>> = { a4: 52, letter: 47 };

const sizeOf = (paper: Paper, crowd: number): number =>
  Math.max(SMALLEST, Math.min(LARGEST, Number((LARGEST * Math.sqrt(ROOM[paper] / crowd)).toFixed(2))));

/** Fixed styles and numbers only: nothing of the maker's goes in here. */
export function cardStyle(paper: Paper, crowd: number): Markup {
  const size = sizeOf(paper, crowd);
  return {
    html: `@page{size:${SIZE[paper]};margin:${MARGIN}}
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0;background:#fff;color:#000;font:${size}pt/1.2 "Liberation Sans",Arial,Helvetica,sans-serif;overflow-wrap:anywhere}
main{max-width:${paper === 'a4' ? 196 : 202}mm;margin:0 auto}
h1{font-size:1.6em;margin:0;line-height:1.1}
h2{font-size:1.08em;margin:.45em 0 .15em;border-bottom:1.2pt solid #000}
p{margin:.15em 0}
header{border-bottom:1.6pt solid #000;padding-bottom:.2em;margin-bottom:.3em}
.warning{border:1.2pt solid #000;padding:.1em .4em}
header .stop{border-width:1.8pt;margin:0;padding:0 .4em;line-height:1.1}
.columns{display:grid;grid-template-columns:1.5fr 1fr;gap:3.5mm}
table{border-collapse:collapse;width:100%}
caption{text-align:left;font-weight:bold;font-size:1.08em;border-bottom:1.2pt solid #000}
td,th{text-align:left;padding:.1em .25em;vertical-align:baseline;font-weight:normal}
tr{border-bottom:.4pt solid #000}
thead th{font-size:.85em;text-align:right}
.step th{font-weight:bold;border-top:1.2pt solid #000;background:#fff;padding-top:.2em}
.step th::first-letter{text-transform:uppercase}
.step span{font-weight:normal}
.number{text-align:right;white-space:nowrap}
.small{font-size:.85em;line-height:1.41;padding-top:.18em}
.tick{display:inline-block;width:.8em;height:.8em;border:.8pt solid #000;margin-right:.4em;vertical-align:-.06em}
ol{margin:0;padding-left:1.5em}
li{margin:.08em 0}
.time{border:.8pt solid #000;padding:0 .25em;white-space:nowrap}
.fill{width:100%;max-height:58mm;display:block}
.record td{border:.6pt solid #000;vertical-align:bottom;font-size:.85em}
.record table+table{margin-top:.2em}
.blank{display:block;height:1.7em}
.lines{columns:2;column-gap:4mm;font-size:.86em}
.lines ul{margin:0;padding:0;list-style:none}
.lines li{padding-left:.8em;text-indent:-.8em;break-inside:avoid}
.stop{border:1.2pt solid #000}
.closing{font-size:.86em;border-top:.8pt solid #000}
@media screen{main{padding:6mm}}
@media screen and (max-width:640px){.columns{grid-template-columns:1fr}.lines{columns:1}.record table,.record tbody,.record tr{display:block}.record td{display:block}}`,
  };
}

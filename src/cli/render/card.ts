import { missedWords, scoopWords, stageMinutes, temperature, timerWords } from '../../core/report/card-print.js';
import type { CardResult } from '../../core/report/card-schema.js';
import { RECORD_FIELDS, RECORD_NOTES } from '../../core/report/card-words.js';
import { mouldCount, wasteTakenOff } from '../../core/report/mould-words.js';
import { printProperty, significant, type Wording } from '../../core/report/print.js';
import { onScale } from '../../core/report/weighed.js';
import { printQuantity } from '../../core/units/print.js';
import { cautionList, stopLines } from './cautions.js';
import type { Sheet } from './page.js';
import { warningLines } from './warnings.js';

const BLANK = '______';

export function renderCard(page: Sheet, card: CardResult, wording: Wording): void {
  const { bold, dim, red } = page.paint;
  const { system } = wording;
  const { bowls } = card;
  page.line(bold(`WEIGH-OUT CARD: ${card.title}`));
  page.paragraph(
    dim(
      [
        ...(card.invented ? ['invented example'] : []),
        card.method.name,
        ...(card.mould === null
          ? []
          : [
              `a bowl fills ${mouldCount(bowls.pieces)} of ${printQuantity(card.mould, 'volume', { system })}${wasteTakenOff(bowls.waste)}`,
            ]),
        `${printQuantity(significant(bowls.grams, 4), 'mass', { system })} of mix, ${printQuantity(Math.round(bowls.cm3), 'volume', { system })}`,
        `water at ${temperature(card.waterTemperature, system)}`,
      ].join(' · '),
    ),
  );
  if (bowls.count > 1) page.paragraph(bold(`Make ${bowls.count} bowls alike; this card is for ONE bowl.`));
  stopLines(page, card.cautions);
  warningLines(page, card.warnings);
  const missed = missedWords(card.targets, wording);
  if (missed !== null) page.paragraph(`${red('MISSES')} ${missed}`, 0, 2);

  const scoops = page.width >= 72;
  page.heading('WEIGH OUT, as the scale reads (tare each vessel before its first line)');
  for (const step of card.weighing) {
    page.paragraph(`${bold(step.vesselName)}: ${step.text}`, 2, 4);
    page.table(
      step.additions.map((a) => [
        `  ${a.name}${a.apart ? ' (fine scale)' : ''}`,
        bold(onScale(a.grams, a.step)),
        `scale reads ${onScale(a.running, step.scaleStep)}`,
        ...(scoops ? [dim(scoopWords(a))] : []),
      ]),
      ['left', 'right', 'right', 'right'],
    );
  }
  if (scoops) {
    const size = printQuantity(card.scoop, 'volume', { system });
    page.paragraph(dim(`Last column: scoops of ${size}, and how far off they can be. A scale is better.`), 2);
  }

  page.heading('MIX AND POUR');
  card.mixing.forEach((m, i) => {
    const time = stageMinutes(m.minutes);
    page.paragraph(`${i + 1}. ${time === '' ? '' : `${bold(time)}: `}${m.text}`, 2, 5);
  });

  page.heading('CLOCK, from powder meeting water');
  page.table(
    card.timers.map((timer) => {
      const { name, value, range } = timerWords(timer);
      return [name, bold(value), dim(range)];
    }),
    ['left', 'right', 'left'],
  );

  page.heading('WRITE DOWN');
  page.paragraph(RECORD_FIELDS.map((field) => `${field} ${BLANK}`).join('  '), 2);
  if (card.expected.length > 0) {
    page.table(card.expected.map((e) => [e.name, BLANK, dim(`expect ${printProperty(e.property, e.grams, wording)}`)]));
  }
  page.paragraph(RECORD_NOTES.map((field) => `${field} ${BLANK}`).join('  '), 2);
  cautionList(page, card.cautions, { full: false });
}

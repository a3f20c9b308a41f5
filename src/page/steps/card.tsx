import { useState } from 'preact/hooks';
import {
  type CardResult,
  mouldCount,
  onScale,
  printProperty,
  printQuantity,
  scoopWords,
  stageMinutes,
  timerWords,
  type UnitSystem,
  wasteTakenOff,
} from '../../core/index.js';
import { Cautions } from '../parts/cautions.js';
import { Field, Pills, problemAt } from '../parts/field.js';
import { Notices, Warnings } from '../parts/notices.js';
import { Stops } from '../parts/stops.js';
import { roughly, shownOf } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import { type Bench, chosenFile, chosenTold, bench as now, say, update } from '../state/bench.js';
import { type Bell, inMs } from '../state/clocks.js';
import { saveAs } from '../state/files.js';
import { wakeBell } from './bell.js';
import { Clocks } from './clocks.js';
import { printCard } from './print-card.js';

type Paper = 'a4' | 'letter';

/** The weigh-out card: the order of adding, the scale's readings, the clock, and a page to print. */
export function CardStep({ bench }: { readonly bench: Bench }) {
  const file = chosenFile(bench)!;
  const [pieces, setPieces] = useState('');
  const [bowl, setBowl] = useState('');
  const [paper, setPaper] = useState<Paper>('a4');
  const asked = /^\d+$/.test(pieces.trim()) && Number(pieces) > 0 ? Math.min(100_000, Number(pieces)) : undefined;
  const had = useAnswer('card', 'card', bench.folder, {
    file,
    paper,
    ...(asked === undefined ? {} : { pieces: asked }),
    ...(bowl.trim() === '' ? {} : { bowl: bowl.trim() }),
  });
  const card = had.value?.card ?? null;
  const told = shownOf(chosenTold(bench));
  return (
    <div class="narrow wide">
      <p class="eyebrow">{card === null ? '' : [card.method.name, `${card.service} service`].join(' · ')}</p>
      <h1>{card?.title ?? 'Weigh-out card'}</h1>
      <section class="group">
        <div class="fields">
          <Field label="Pieces to pour" mode="numeric" value={pieces} hint="as the file says" onEdit={setPieces} />
          <Field
            label="Most that one bowl mixes"
            value={bowl}
            hint="⟦2 kg, 1.5 L|5 lb, 6 cups⟧"
            problem={problemAt(had.problems, 'bowl')}
            onEdit={setBowl}
          />
        </div>
      </section>
      <Notices problems={had.problems} title="What to put right" />
      <Clocks clocks={bench.clocks} />
      {card === null ? (
        <p class="wait">{had.busy ? 'Laying out the card…' : ''}</p>
      ) : (
        <div class={had.busy ? 'stale' : undefined}>
          <Sheet card={card} system={had.value!.system} />
          <section class="group">
            <h2>On paper</h2>
            <Pills
              legend="Paper"
              value={paper}
              options={[
                { value: 'a4', text: 'A4' },
                { value: 'letter', text: 'US Letter' },
              ]}
              onPick={setPaper}
            />
            <div class="row wrap">
              <button type="button" class="button main" onClick={() => printCard(had.value!.html, paper)}>
                Print the card
              </button>
              <button type="button" class="button" onClick={() => saveAs('card.html', had.value!.html, 'text/html')}>
                Save card.html
              </button>
            </div>
          </section>
        </div>
      )}
      {told !== null && <Cautions set={told.result.cautions} full={bench.fullCautions} />}
    </div>
  );
}

function Sheet({ card, system }: { readonly card: CardResult; readonly system: UnitSystem }) {
  const { bowls } = card;
  return (
    <>
      <Stops set={card.cautions} />
      <Warnings of={card.warnings} />
      <section class="group" aria-labelledby="weigh-title">
        <h2 id="weigh-title">Weigh out{bowls.count === 1 ? '' : `, ${bowls.count} bowls alike: this is one`}</h2>
        <p class="hint">
          {roughly(bowls.grams, { system, currency: null })} of mix
          {card.mould === null ? '' : `, fills ${mouldCount(bowls.pieces)}${wasteTakenOff(bowls.waste)}`}; water at{' '}
          {printQuantity(card.waterTemperature, 'temperature', { system, digits: 0 })}. Weights are as the scale reads.
          Tare each vessel before its first line.
        </p>
        {card.weighing.map((step, i) => (
          <Weighing key={`${step.id} ${i}`} step={step} />
        ))}
      </section>
      <section class="group" aria-labelledby="mix-title">
        <h2 id="mix-title">Mix and pour</h2>
        <ol class="mixing">
          {card.mixing.map((m) => (
            <li key={m.id}>
              {stageMinutes(m.minutes) !== '' && <b class="time">{stageMinutes(m.minutes)}</b>} {m.text}
            </li>
          ))}
        </ol>
      </section>
      <section class="group" aria-labelledby="clock-title">
        <h2 id="clock-title">Clock, from powder meeting water</h2>
        <dl class="expect">
          {card.timers.map((t) => {
            const { name, value, range } = timerWords(t);
            return (
              <div key={t.id}>
                <dt>{name}</dt>
                <dd>
                  {value}
                  <small>{range}</small>
                </dd>
              </div>
            );
          })}
        </dl>
        <button type="button" class="button main" onClick={() => startClock(card)}>
          Start the clock: powder is in the water
        </button>
      </section>
      {card.expected.length > 0 && (
        <section class="group" aria-labelledby="expected-title">
          <h2 id="expected-title">A piece should weigh</h2>
          <dl class="expect">
            {card.expected.map((e) => (
              <div key={e.name}>
                <dt>{e.name}</dt>
                <dd>{printProperty(e.property, e.grams, { system, currency: null })}</dd>
              </div>
            ))}
          </dl>
        </section>
      )}
    </>
  );
}

function Weighing({ step }: { readonly step: CardResult['weighing'][number] }) {
  const coarsest = Math.max(...step.additions.map((a) => a.step));
  return (
    <fieldset class="weighing">
      <legend>
        <b>{step.vesselName}</b> {step.text}
      </legend>
      {step.additions.map((a) => (
        <label key={a.material} class="addition">
          <input type="checkbox" />
          <span class="what">
            {a.name}
            <small>
              {[...(a.apart ? ['fine scale'] : []), scoopWords(a) + (a.scoops === null ? '' : ' scoops')].join(' · ')}
            </small>
          </span>
          <span class="amount-of">
            <b>{onScale(a.grams, a.step)}</b>
            <small>scale reads {onScale(a.running, coarsest)}</small>
          </span>
        </label>
      ))}
    </fieldset>
  );
}

/** Durations that follow another are no moment of their own. */
const MOMENTS: readonly string[] = ['mixed', 'pour', 'demould', 'dry'];

function startClock(card: CardResult): void {
  wakeBell();
  const bells = card.timers.flatMap((t): Bell[] =>
    t.value === null || !MOMENTS.includes(t.id)
      ? []
      : [{ id: t.id, name: t.name, after: inMs(t.value, t.unit), rung: false }],
  );
  const started = Date.now();
  update({ clocks: [...now.clocks, { id: `${started}`, title: card.title, started, bells }] });
  say(`The clock for ${card.title} runs.`);
}

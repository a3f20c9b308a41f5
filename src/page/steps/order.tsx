import { useState } from 'preact/hooks';
import { type OrderResult, printMoney, printQuantity, significant, type UnitSystem } from '../../core/index.js';
import { Cautions, useCautionsInView } from '../parts/cautions.js';
import { Choice, Field, Fold, Pills, problemAt } from '../parts/field.js';
import { Notices, Warnings } from '../parts/notices.js';
import { OwnFigures } from '../parts/own-figures.js';
import { Stops } from '../parts/stops.js';
import { count } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import { type Bench, chosenFile, update } from '../state/bench.js';
import { dataOf, fieldOf, textField } from '../state/edit.js';
import { editField, freeName, writeFile } from '../state/files.js';
import { kindOf, titleOf } from '../state/papers.js';
import type { Notice } from '../worker/notice.js';
import { Paper } from './paper.js';
import { shopFileOf } from './shelf.js';

/** Pieces by a day: pours by day, moulds and packs to buy, and whether it can be met. */
export function OrderStep({ bench }: { readonly bench: Bench }) {
  const file = bench.order;
  const had = useAnswer('order', 'order', bench.folder, file === null ? null : { file });
  useCautionsInView(file === null ? null : (had.value?.result.cautions ?? null));
  if (file === null || bench.folder[file] === undefined) return <NewOrder bench={bench} />;
  const text = bench.folder[file];
  const data = dataOf(text);
  return (
    <div class="narrow wide">
      <h1>{titleOf(file, text)}</h1>
      {data === null ? (
        <p class="hint">The file is not readable YAML just now; put it right below.</p>
      ) : (
        <OrderForm file={file} data={data} bench={bench} problems={had.problems} />
      )}
      <Notices problems={had.problems} title="What to put right" />
      {had.value === null ? (
        <p class="wait">{had.busy ? 'Planning…' : ''}</p>
      ) : (
        <div class={had.busy ? 'stale' : undefined}>
          <OwnFigures own={had.value.result.ownFigures} />
          <Plan {...had.value} />
          <Cautions set={had.value.result.cautions} full={bench.fullCautions} />
        </div>
      )}
      <Paper file={file} text={text} name="The order" />
      <button type="button" class="button" onClick={() => update({ order: null })}>
        Put this order away
      </button>
    </div>
  );
}

const day = (after: number): string => new Date(Date.now() + after * 86_400_000).toISOString().slice(0, 10);
const DUE_AFTER = 28;

function NewOrder({ bench }: { readonly bench: Bench }) {
  const file = chosenFile(bench);
  const orders = Object.entries(bench.folder).filter(([name, text]) => kindOf(name, text) === 'order');
  const begin = (): void => {
    const folder = file?.includes('/') ? file.slice(0, file.lastIndexOf('/') + 1) : '';
    const shop = shopFileOf(bench);
    const name = freeName(`${folder}my-order.yaml`);
    const item = chosenItem(bench, file!.slice(folder.length));
    writeFile(
      name,
      `title: My order\n${shop === null ? '' : `shop: ${shop.slice(folder.length)}\n`}start: ${day(1)}\ndue: ${day(DUE_AFTER)}\nitems:\n  - ${item}\n`,
    );
    update({ order: name });
  };
  return (
    <div class="narrow">
      <h1>An order to plan</h1>
      {file === null ? (
        <p>
          Open a brief or a recipe first: <a href="#start">start here</a>.
        </p>
      ) : (
        <button type="button" class="button main" onClick={begin}>
          Plan “{titleOf(file, bench.folder[file] ?? '')}”
        </button>
      )}
      {orders.length > 0 && (
        <ul class="papers">
          {orders.map(([name, text]) => (
            <li key={name}>
              <button type="button" class="open" onClick={() => update({ order: name })}>
                <b>{titleOf(name, text)}</b>
                <small>{name}</small>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

const chosenItem = (bench: Bench, name: string): string => `{ ${bench.chosen}: ${name}, pieces: 10, moulds: 1 }`;

interface OrderFormProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly bench: Bench;
  readonly problems: readonly Notice[];
}

function OrderForm({ file, data, bench, problems }: OrderFormProps) {
  const items = (fieldOf(data, ['items']) ?? []) as readonly Record<string, unknown>[];
  const folder = file.includes('/') ? file.slice(0, file.lastIndexOf('/') + 1) : '';
  const papers = Object.entries(bench.folder)
    .filter(([name, text]) => name.startsWith(folder) && ['brief', 'recipe'].includes(kindOf(name, text)))
    .map(([name, text]) => ({ value: name.slice(folder.length), text: titleOf(name, text), kind: kindOf(name, text) }));
  const text = (label: string, path: readonly (string | number)[], hint: string, type: 'text' | 'date' = 'text') => (
    <Field
      label={label}
      type={type}
      value={textField(data, path)}
      hint={hint}
      problem={problemAt(problems, path.join('.'))}
      onEdit={(t) => editField(file, path, t)}
    />
  );
  return (
    <section class="group" aria-labelledby="ask-title">
      <h2 id="ask-title">Asked for</h2>
      <div class="fields">
        {text('First day of work', ['start'], '', 'date')}
        {text('All ready by', ['due'], '', 'date')}
      </div>
      <Pills
        legend="Ready means"
        value={textField(data, ['ready']) || 'dry'}
        options={[
          { value: 'dry', text: 'dry' },
          { value: 'demoulded', text: 'out of the mould' },
        ]}
        onPick={(v) => editField(file, ['ready'], v)}
      />
      {items.map((item, i) => {
        const name = typeof item['brief'] === 'string' ? item['brief'] : String(item['recipe'] ?? '');
        return (
          <fieldset class="weighing" key={i}>
            <legend>
              <b>{papers.find((p) => p.value === name)?.text ?? name}</b>
            </legend>
            <div class="fields">
              {text('Pieces', ['items', i, 'pieces'], '10')}
              {text('Moulds on hand', ['items', i, 'moulds'], '1')}
              {text('Price of one more mould', ['items', i, 'mould-price'], '18.00')}
            </div>
            {items.length > 1 && (
              <button type="button" class="quiet" onClick={() => editField(file, ['items', i], undefined)}>
                Take it out
              </button>
            )}
          </fieldset>
        );
      })}
      <Choice
        label="Add a piece"
        value=""
        options={[{ value: '', text: 'choose…' }, ...papers]}
        onPick={(value) => {
          const kind = papers.find((p) => p.value === value)?.kind;
          if (kind !== undefined) editField(file, ['items', items.length], { [kind]: value, pieces: 10, moulds: 1 });
        }}
      />
      <Fold name="Hours, breakage, bowl">
        <div class="fields">
          {text('Working hours a day', ['hours'], 'the shop’s, or 8 h')}
          {text('The day begins', ['opens'], '09:00')}
          {text('Pieces that break', ['breakage'], 'the shop’s')}
          {text('Most you mix at once', ['bowl'], 'the shop’s')}
        </div>
      </Fold>
    </section>
  );
}

function Plan({ result, system }: { readonly result: OrderResult; readonly system: UnitSystem }) {
  const mass = (g: number): string => printQuantity(significant(g, 4), 'mass', { system });
  const money = (amount: string): string => printMoney(amount, result.currency);
  const { moulds, careful } = result;
  const [bought, setBought] = useState(false);
  const days = bought && moulds.days !== null ? moulds.days : result.days;
  return (
    <>
      <section class="group" aria-labelledby="met-title">
        <h2 id="met-title">Can it be met?</h2>
        <p class={`big ${result.met ? 'yes' : 'no'}`}>
          <b>{result.met ? 'Yes' : 'No'}</b>, with the moulds on hand.{' '}
          {result.lastReady === null
            ? 'Not every piece can be made ready.'
            : `The last piece is ${result.ready} on ${result.lastReady}.`}
        </p>
        {moulds.status === 'buy' && (
          <p>
            {moulds.fewest ? 'Fewest that make it: ' : 'Enough to make it (fewer may do): '}
            <b>{moulds.buy.map((b) => `${count(b.moulds, 'more mould')} for ${b.title}`).join(', ')}</b>
            {moulds.cost === null ? '' : ` (${money(moulds.cost)})`}; the last piece is then {result.ready} on{' '}
            {moulds.lastReady}.
          </p>
        )}
        {moulds.status === 'no-help' && (
          <p>
            More moulds do not make it: even with one for every piece the last is {result.ready} on{' '}
            {moulds.lastReady ?? 'no day'}.
          </p>
        )}
        <p class="hint">
          Should it stiffen early, set late and dry slowly,{' '}
          {careful.met
            ? `it still holds: ${careful.lastReady}.`
            : `the last piece is ${result.ready} ${careful.lastReady === null ? 'never' : `on ${careful.lastReady}`}.`}
        </p>
        <Stops set={result.cautions} />
        <Warnings of={result.warnings} />
        {result.items
          .filter((i) => i.impossible !== null)
          .map((i) => (
            <p key={i.title} class="wrong">
              {i.title} cannot be poured: {i.impossible}
            </p>
          ))}
      </section>
      <section class="group" aria-labelledby="days-title">
        <h2 id="days-title">Pours by day</h2>
        {moulds.days !== null && (
          <Pills
            legend="With"
            value={bought ? 'bought' : 'hand'}
            options={[
              { value: 'hand', text: 'moulds on hand' },
              { value: 'bought', text: 'moulds bought' },
            ]}
            onPick={(v) => setBought(v === 'bought')}
          />
        )}
        {days.map((d) => (
          <div class="day" key={d.date}>
            <h3>
              {d.weekday} {d.date}
            </h3>
            {d.pours.map((p) => (
              <div class="pour" key={`${p.at} ${p.item}`}>
                <b>{p.at.slice(11)}</b>
                <span>
                  {p.pieces} × {p.title}
                </span>
                <span>{mass(p.grams)}</span>
                <small>
                  out of the mould{' '}
                  {p.demouldAt.slice(0, 10) === d.date ? p.demouldAt.slice(11) : p.demouldAt.replace('T', ' ')};{' '}
                  {result.ready} {p.ready ?? 'never'}
                </small>
              </div>
            ))}
          </div>
        ))}
      </section>
      <section class="group" aria-labelledby="packs-title">
        <h2 id="packs-title">Packs to buy: {money(result.materialsCost)}</h2>
        <dl class="expect">
          {result.materials.map((m) => (
            <div key={m.material}>
              <dt>
                {m.name} <small>{mass(m.grams)}</small>
              </dt>
              <dd>
                {m.buy === null
                  ? 'no price'
                  : m.buy.length === 0
                    ? 'on hand'
                    : m.buy.map((b) => `${b.count} × ${b.pack}`).join(' and ')}
                {m.cost !== null && m.buy !== null && m.buy.length > 0 && <small>{money(m.cost)}</small>}
              </dd>
            </div>
          ))}
        </dl>
      </section>
    </>
  );
}

import { useState } from 'preact/hooks';
import {
  type PricedBlend,
  type PriceResult,
  printFine,
  printMoney,
  printQuantity,
  type UnitSystem,
} from '../../core/index.js';
import { Cautions } from '../parts/cautions.js';
import { Field, Fold, problemAt, Ticks } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { Scroll } from '../parts/scroll.js';
import { Stops } from '../parts/stops.js';
import { count, shownOf } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import { type Bench, chosenFile, chosenTold } from '../state/bench.js';
import { kindOf, titleOf } from '../state/papers.js';

/** What a piece costs, at what price it pays, and what saves most; several blends side by side. */
export function PriceStep({ bench }: { readonly bench: Bench }) {
  const file = chosenFile(bench)!;
  const folder = file.includes('/') ? file.slice(0, file.indexOf('/') + 1) : '';
  const [others, setOthers] = useState<readonly string[]>([]);
  const [at, setAt] = useState('');
  const [run, setRun] = useState('');
  const pieces = /^\d+$/.test(run.trim()) && Number(run) > 0 ? Math.min(100_000, Number(run)) : undefined;
  const had = useAnswer('price', 'price', bench.folder, {
    files: [file, ...others.filter((o) => o !== file)],
    ...(at.trim() === '' ? {} : { at: at.trim() }),
    ...(pieces === undefined ? {} : { run: pieces }),
  });
  const beside = Object.entries(bench.folder)
    .filter(
      ([name, text]) => name !== file && name.startsWith(folder) && ['brief', 'recipe'].includes(kindOf(name, text)),
    )
    .map(([name, text]) => ({ value: name, text: titleOf(name, text) }));
  const told = shownOf(chosenTold(bench));
  return (
    <div class="narrow wide">
      <h1>Price of a piece</h1>
      <section class="group">
        <div class="fields">
          <Field
            label="Asked price, to see what is left"
            mode="decimal"
            value={at}
            hint="12.50"
            problem={problemAt(had.problems, 'at')}
            onEdit={setAt}
          />
          <Field label="Pieces in the run, for packs" mode="numeric" value={run} hint="100" onEdit={setRun} />
        </div>
        {beside.length > 0 && <Ticks legend="Beside it" options={beside} values={others} onPick={setOthers} />}
      </section>
      <Notices problems={had.problems} title="What to put right" />
      {had.value === null ? (
        <p class="wait">{had.busy ? 'Adding up…' : ''}</p>
      ) : (
        <div class={had.busy ? 'stale' : undefined}>
          <Notices problems={had.value.result.unpriced?.flatMap((u) => u.warnings) ?? []} title="Not priced" />
          <SideBySide result={had.value.result} />
          {had.value.result.blends.map((blend) => (
            <Priced key={blend.title} blend={blend} {...had.value!} />
          ))}
        </div>
      )}
      {told !== null && <Cautions set={told.result.cautions} full={bench.fullCautions} />}
    </div>
  );
}

interface PricedProps {
  readonly blend: PricedBlend;
  readonly result: PriceResult;
  readonly system: UnitSystem;
}

function Priced({ blend, result, system }: PricedProps) {
  const money = (amount: string): string => printMoney(amount, result.currency, result.decimals);
  const mass = (g: number): string => printQuantity(Number(g.toPrecision(4)), 'mass', { system });
  const sales = [
    ['covers everything', blend.covering] as const,
    ...(blend.at === null ? [] : [['as asked', blend.at] as const]),
  ];
  const digits = Math.max(result.decimals, 4);
  const worth = blend.tenth.filter((s) => Number(s.exact) >= 0.5 * 10 ** -digits).slice(0, 6);
  return (
    <section class="group" aria-label={blend.title}>
      <h2>{blend.title}</h2>
      <Stops set={blend.cautions} />
      {blend.gaps.map((gap) => (
        <p key={gap} class="wrong">
          Not counted: {gap}
        </p>
      ))}
      <Scroll label={`Cost and price of ${blend.title}`}>
        <table>
          <caption class="unseen">What one {blend.per} costs</caption>
          <tbody>
            {blend.lines.map((line) => (
              <tr key={line.id}>
                <th scope="row">{line.group === 'colour' ? `${line.name} (colour)` : line.name}</th>
                <td>{line.grams === null ? '' : printFine(line.grams, result.step, system)}</td>
                <td>{line.amount}</td>
              </tr>
            ))}
            <tr class="sum">
              <th scope="row">cost of one {blend.per}</th>
              <td />
              <td>{money(blend.total)}</td>
            </tr>
          </tbody>
        </table>
        <table class="cards">
          <thead>
            <tr>
              <th scope="col">price that</th>
              <th scope="col">price</th>
              <th scope="col">left</th>
              <th scope="col">an hour</th>
            </tr>
          </thead>
          <tbody>
            {sales.map(([name, sale]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td data-label="price">
                  <b>{money(sale.price)}</b>
                </td>
                <td data-label="left">{sale.left}</td>
                <td data-label="an hour">{sale.hourly === null ? '–' : money(sale.hourly)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {worth.length > 0 && (
        <Fold name="What saves most: a tenth less of each">
          <dl class="expect">
            {worth.map((s) => (
              <div key={s.id}>
                <dt>{s.name}</dt>
                <dd>{printMoney(s.exact, result.currency, digits)}</dd>
              </div>
            ))}
          </dl>
        </Fold>
      )}
      <Fold name={`Packs for ${count(result.run, 'piece')}, from an empty shelf`}>
        <ul class="plain">
          {blend.packs.map((p) => (
            <li key={p.material}>
              {p.name}: {p.buy.map((b) => `${b.count} × ${b.text}`).join(' and ')}, <b>{money(p.cost)}</b>
              {p.proven ? '' : ' (the cheapest found)'}
              {p.left >= 1 ? `, ${mass(Math.round(p.left))} left over` : ''}
            </li>
          ))}
        </ul>
      </Fold>
    </section>
  );
}

function SideBySide({ result }: { readonly result: PriceResult }) {
  const { comparison } = result;
  if (comparison === null) return null;
  const money = (amount: string): string => printMoney(amount, result.currency, result.decimals);
  return (
    <section class="group" aria-labelledby="beside-title">
      <h2 id="beside-title">Side by side</h2>
      <Scroll label="Cost of one piece side by side">
        <table class="cards">
          <thead>
            <tr>
              <th scope="col">one piece</th>
              {result.blends.map((b) => (
                <th scope="col" key={b.title}>
                  {b.title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {comparison.groups.map((g) => (
              <tr key={g.group}>
                <th scope="row">{GROUPS[g.group] ?? g.group}</th>
                {g.amounts.map((a, i) => (
                  <td data-label={result.blends[i]!.title} key={result.blends[i]!.title}>
                    {a}
                  </td>
                ))}
              </tr>
            ))}
            <tr class="sum">
              <th scope="row">cost</th>
              {comparison.totals.map((t, i) => (
                <td data-label={result.blends[i]!.title} key={result.blends[i]!.title}>
                  {money(t)}
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      </Scroll>
    </section>
  );
}

const GROUPS: Readonly<Record<string, string>> = {
  mould: 'mould wear',
  labour: 'your work',
  failed: 'pieces that fail',
};

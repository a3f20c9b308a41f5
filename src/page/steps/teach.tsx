import { useState } from 'preact/hooks';
import { type FitResult, figureIn, fitDoubts, UNTRUSTED_FIT } from '../../core/index.js';
import { Notices } from '../parts/notices.js';
import { Scroll } from '../parts/scroll.js';
import { count } from '../parts/words.js';
import { type Bench, say } from '../state/bench.js';
import { editField, writeFile } from '../state/files.js';
import { askOnce } from '../state/once.js';
import { today } from '../state/today.js';
import type { Asks } from '../worker/asks.js';
import { beside } from '../worker/folder.js';
import type { Notice } from '../worker/notice.js';

/** What the pours teach: figures before and after, and whether the shop is to use them. */
export function Teach({
  bench,
  file,
  shop,
}: {
  readonly bench: Bench;
  readonly file: string;
  readonly shop: string | null;
}) {
  const [fit, setFit] = useState<Asks['fit']['answer'] | null>(null);
  const [wrong, setWrong] = useState<readonly Notice[]>([]);
  const [busy, setBusy] = useState(false);
  const run = async (): Promise<void> => {
    setBusy(true);
    const answer = await askOnce('fit', bench.folder, { file, shop, today: today() });
    setBusy(false);
    setFit(answer.ok ? answer.value : null);
    setWrong(answer.ok ? [] : answer.problems);
  };
  const use = (): void => {
    const target = beside(shop ?? 'shop.yaml', 'learned.yaml');
    writeFile(target, fit!.learned);
    if (shop !== null) editField(shop, ['learned'], 'learned.yaml');
    say('From now on the shop uses what your pours have taught.');
  };
  const shown = fit?.result.figures.filter((f) => f.notable) ?? [];
  const figure = (n: number): string => String(Number(n.toPrecision(3)));
  const rows = shown.map((f) => ({ f, ...figureIn(f.unit, fit!.system) }));
  return (
    <section class="group" aria-labelledby="teach-title">
      <h2 id="teach-title">What your pours teach</h2>
      <button type="button" class="button" disabled={busy} onClick={() => void run()}>
        {busy ? 'Fitting…' : 'Fit the figures to the pours'}
      </button>
      <Notices problems={wrong} title="Nothing to learn from yet" />
      {fit !== null && (
        <>
          <p>
            From {count(fit.result.measurements, 'measurement')} of {count(fit.result.used.length, 'pour')}:{' '}
            {shown.length === 0
              ? 'nothing the table did not know.'
              : `${count(shown.length, 'figure')} moved or narrowed.`}
          </p>
          <Doubts result={fit.result} />
          {shown.length > 0 && (
            <Scroll label="Figures before and after">
              <table>
                <thead>
                  <tr>
                    <th scope="col">figure</th>
                    <th scope="col">table</th>
                    <th scope="col">your shop</th>
                  </tr>
                </thead>
                <tbody>
                  {rows.map(({ f, unit, of }) => (
                    <tr key={f.figure}>
                      <th scope="row">
                        {f.title} <small>{unit}</small>
                      </th>
                      <td>
                        {figure(of(f.before.low))} to {figure(of(f.before.high))}
                      </td>
                      <td>
                        <b>
                          {figure(of(f.after.low))} to {figure(of(f.after.high))}
                        </b>
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </Scroll>
          )}
          {!fit.result.trusted && <p>{UNTRUSTED_FIT}</p>}
          <button type="button" class="button main" disabled={shop === null || !fit.result.trusted} onClick={use}>
            Use them from now on
          </button>
        </>
      )}
    </section>
  );
}

/** What is to be looked at before the fit is believed. */
function Doubts({ result }: { readonly result: FitResult }) {
  const doubts = fitDoubts(result);
  if (doubts.length === 0 && result.warnings.length === 0) return null;
  return (
    <ul class="plain">
      {result.warnings.map(({ message }) => (
        <li key={message}>{message}</li>
      ))}
      {doubts.map(({ lead, text }) => (
        <li key={text}>
          <b>{lead}</b> {text}
        </li>
      ))}
    </ul>
  );
}

import { useState } from 'preact/hooks';
import { chanceWords, printToldOf, propertyById, type Wording } from '../../core/index.js';
import { Notices } from '../parts/notices.js';
import { Scroll } from '../parts/scroll.js';
import { propertyOf } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import type { Bench } from '../state/bench.js';
import { editField } from '../state/files.js';
import type { Others } from '../worker/others.js';

const ROWS = ['cost', 'dry-weight', 'strength', 'working-time', 'demould-time', 'water-to-binder'] as const;

/** Blends of other ingredients side by side; asked for, because it takes several proposals. */
export function OtherBlends({ bench, wording }: { readonly bench: Bench; readonly wording: Wording }) {
  const [wanted, setWanted] = useState(false);
  const file = bench.brief!;
  const had = useAnswer('others', 'others', bench.folder, wanted ? { file } : null);
  return (
    <section aria-labelledby="blends-title">
      <h2 id="blends-title">Blends of other ingredients</h2>
      {!wanted && (
        <button type="button" class="button" onClick={() => setWanted(true)}>
          Look for them
        </button>
      )}
      {wanted && had.busy && <p class="hint">Looking for blends that meet the brief with other ingredients…</p>}
      <Notices problems={had.problems} title="What to put right" />
      {wanted && had.value !== null && (
        <SideBySide
          others={had.value}
          wording={wording}
          stale={had.busy}
          onTake={(only) => editField(file, ['materials', 'only'], only)}
        />
      )}
    </section>
  );
}

interface SideBySideProps {
  readonly others: Others;
  readonly wording: Wording;
  readonly stale: boolean;
  readonly onTake: (only: readonly string[]) => void;
}

function SideBySide({ others, wording, stale, onTake }: SideBySideProps) {
  if (others.blends.length < 2) return <p>No other ingredients of this shelf meet the brief.</p>;
  const name = (i: number): string => (i === 0 ? 'on the bench' : `another, ${i}`);
  return (
    <div class={stale ? 'stale' : undefined}>
      <Scroll label="Blends side by side">
        <table class="beside cards">
          <thead>
            <tr>
              <th scope="col">one piece</th>
              {others.blends.map((b, i) => (
                <th scope="col" key={b.result.blend.map((m) => m.material).join()}>
                  {name(i)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">made of</th>
              {others.blends.map((b, i) => (
                <td class="list" data-label={name(i)} key={b.result.blend.map((m) => m.material).join()}>
                  {b.result.blend.map((m) => m.name).join(', ')}
                </td>
              ))}
            </tr>
            {ROWS.map((id) => (
              <tr key={id}>
                <th scope="row">{propertyById(id)!.name}</th>
                {others.blends.map((b, i) => (
                  <td data-label={name(i)} key={b.result.blend.map((m) => m.material).join()}>
                    {printToldOf(b.result, id, propertyOf(b.result, id), wording)}
                  </td>
                ))}
              </tr>
            ))}
            <tr>
              <th scope="row">all targets at once</th>
              {others.blends.map((b, i) => (
                <td data-label={name(i)} key={b.result.blend.map((m) => m.material).join()}>
                  {chanceWords(b.result.jointChance) || '–'}
                </td>
              ))}
            </tr>
            <tr>
              <th scope="row">take it</th>
              {others.blends.map((b, i) => (
                <td data-label={i > 0 ? name(i) : undefined} key={b.result.blend.map((m) => m.material).join()}>
                  {i > 0 && (
                    <button
                      type="button"
                      class="button"
                      aria-label={`Take ${name(i)}: use only what it is made of`}
                      onClick={() => onTake(b.result.blend.filter((m) => m.kind !== 'water').map((m) => m.material))}
                    >
                      Take
                    </button>
                  )}
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      </Scroll>
      <p class="hint">
        Taking one lists its ingredients as the only ones that may be used; “Materials that may be used” frees them
        again.
      </p>
    </div>
  );
}

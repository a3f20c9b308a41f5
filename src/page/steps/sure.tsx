import { useState } from 'preact/hooks';
import { surenessWords } from '../../core/index.js';
import { BlendTable } from '../parts/blend-table.js';
import { Field, Pills, problemAt } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { Verdicts } from '../parts/verdicts.js';
import { isProposal, wordingOf } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import type { Bench } from '../state/bench.js';
import { recipeOf } from '../state/papers.js';
import type { Told } from '../worker/told.js';

const CHANCES = ['80 %', '90 %', '95 %'] as const;

interface Asked {
  readonly chance: string;
  /** The brief as it was when it was asked: a later change is not chased, as the search takes its time. */
  readonly text: string;
}

/** How sure the maker wants to be of all targets at once: looked for on demand, and taken as a recipe. */
export function SurePart({ bench }: { readonly bench: Bench }) {
  const file = bench.brief!;
  const text = bench.folder[file] ?? '';
  const [chance, setChance] = useState<string>(CHANCES[1]);
  const [asked, setAsked] = useState<Asked | null>(null);
  const current = asked !== null && asked.text === text;
  const had = useAnswer('sure', 'sure', bench.folder, current ? { file, chance: asked.chance } : null);
  const busy = current && had.busy;
  const problems = current ? had.problems : [];
  const other = problemAt(problems, 'chance');
  const shown = asked === null ? null : had.value;
  return (
    <section aria-labelledby="sure-title">
      <h2 id="sure-title">How sure of all targets at once</h2>
      <p class="hint">
        The blend above just meets the targets by what is likeliest. A surer one keeps clear of the limits, as far as
        the figures of the table may be off.
      </p>
      <Pills
        legend="At least so sure"
        value={chance}
        options={CHANCES.map((value) => ({ value, text: value }))}
        onPick={setChance}
      />
      <div class="add">
        <Field label="or another chance" value={chance} hint="90 %" problem={other} onEdit={setChance} />
        <button type="button" class="button" disabled={busy} onClick={() => setAsked({ chance: chance.trim(), text })}>
          Look for a surer blend
        </button>
      </div>
      {busy && (
        <p class="hint" role="status">
          Looking for a blend that keeps clear of its limits…
        </p>
      )}
      <Notices problems={other === undefined ? problems : []} title="What to put right" />
      {shown !== null && problems.length === 0 && (
        <div class={busy || !current ? 'stale' : undefined}>
          {!current && <p class="hint">The brief has changed since: look again.</p>}
          <Surer told={shown} onTake={current && !busy ? () => recipeOf(file, shown) : null} />
        </div>
      )}
    </section>
  );
}

function Surer({ told, onTake }: { readonly told: Told; readonly onTake: (() => void) | null }) {
  const { result } = told;
  const wording = wordingOf(told);
  const words = isProposal(result) ? surenessWords(result, wording) : null;
  if (words === null) return null;
  return (
    <>
      <h3 class="named">{words.title}</h3>
      <p>
        <b>{words.outcome}</b>
      </p>
      {words.cost !== null && <p>{words.cost}</p>}
      {words.held.length > 0 && (
        <ul class="plain">
          {words.held.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {result.targets.length > 0 && (
        <>
          <Verdicts verdicts={result.targets} properties={result.properties} wording={wording} />
          <BlendTable told={told} name="The surer blend" />
          <button type="button" class="button" disabled={onTake === null} onClick={() => onTake?.()}>
            Keep this blend as a recipe
          </button>
        </>
      )}
    </>
  );
}

import { useState } from 'preact/hooks';
import { PickFile } from '../parts/field.js';
import { Kept } from '../parts/kept.js';
import type { Bench } from '../state/bench.js';
import { readPicked, removeFile, saveAs } from '../state/files.js';
import { kindOf, newBrief, newRecipe, openExample, openPaper, takeIn, titleOf } from '../state/papers.js';
import { exampleFiles } from '../state/shipped.js';

/** Where a maker begins: an empty brief, a file of theirs, or an invented example. */
export function StartStep({ bench }: { readonly bench: Bench }) {
  const [trouble, setTrouble] = useState('');
  const examples = Object.entries(exampleFiles()).filter(([name, text]) =>
    ['brief', 'recipe', 'order', 'medium'].includes(kindOf(name, text)),
  );
  const own = Object.entries(bench.folder).filter(([name]) => !name.includes('/'));
  const load = async (file: File): Promise<void> => {
    const read = await readPicked(file);
    if ('trouble' in read) setTrouble(read.trouble);
    else takeIn(file.name, read.text);
  };
  return (
    <div class="narrow">
      <header class="opening">
        <h1>What will you cast?</h1>
        <p>
          Say how big the mould is and what the piece must do. The bench proposes a blend from your shelf, tells how
          sure it is, and takes you from the weigh-out to the finished pour. Everything stays on this device.
        </p>
      </header>
      <div class="row wrap">
        <button type="button" class="button main" onClick={newBrief}>
          New brief
        </button>
        <button type="button" class="button" onClick={newRecipe}>
          Check a recipe of mine
        </button>
        <PickFile label="Open a file" accept=".yaml,.yml,.csv,.txt" onPick={load} />
      </div>
      {trouble !== '' && (
        <p class="wrong" role="alert">
          {trouble}
        </p>
      )}
      {own.length > 0 && (
        <section aria-labelledby="own-title">
          <h2 id="own-title">Your files</h2>
          <ul class="papers">
            {own.map(([name, text]) => (
              <li key={name}>
                <button type="button" class="open" onClick={() => openPaper(name)}>
                  <b>{titleOf(name, text)}</b>
                  <small>
                    {kindOf(name, text)}, {name}
                  </small>
                </button>
                <button type="button" class="quiet" onClick={() => saveAs(name, text)}>
                  Save
                </button>
                <Remove name={name} />
              </li>
            ))}
          </ul>
        </section>
      )}
      <section aria-labelledby="examples-title">
        <h2 id="examples-title">Or look at an invented example</h2>
        <p class="hint">A workshop behind a garden stall. Every figure of it is made up.</p>
        <ul class="papers">
          {examples.map(([name, text]) => (
            <li key={name}>
              <button type="button" class="open" onClick={() => openExample(name)}>
                <b>{titleOf(name, text)}</b>
                <small>{kindOf(name, text)}</small>
              </button>
            </li>
          ))}
        </ul>
      </section>
      <Kept bench={bench} />
    </div>
  );
}

/** Taking a file out asks twice. */
function Remove({ name }: { readonly name: string }) {
  const [sure, setSure] = useState(false);
  return (
    <button
      type="button"
      class="quiet"
      aria-label={sure ? `Really? Remove ${name}` : `Remove ${name}`}
      onClick={() => (sure ? removeFile(name) : setSure(true))}
      onBlur={() => setSure(false)}
    >
      {sure ? 'Really?' : 'Remove'}
    </button>
  );
}

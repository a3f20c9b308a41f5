import { useState } from 'preact/hooks';
import { Fold, PickFile } from '../parts/field.js';
import { readPicked, saveAs, writeFile } from '../state/files.js';

/** A file as it is: to read, to change by hand, to save and to load. */
export function Paper({ file, text, name }: { readonly file: string; readonly text: string; readonly name: string }) {
  const [trouble, setTrouble] = useState('');
  const load = async (picked: File): Promise<void> => {
    const read = await readPicked(picked);
    if ('trouble' in read) setTrouble(read.trouble);
    else {
      setTrouble('');
      writeFile(file, read.text);
    }
  };
  return (
    <Fold name={`${name} as a file`}>
      <p class="hint">The command line reads this file as it stands.</p>
      <textarea
        class="paper"
        aria-label={`${name}, ${file}`}
        spellcheck={false}
        rows={Math.min(28, text.split('\n').length + 1)}
        value={text}
        onInput={(e) => writeFile(file, e.currentTarget.value)}
      />
      <div class="row wrap">
        <button type="button" class="button" onClick={() => saveAs(file, text)}>
          Save {file.split('/').at(-1)}
        </button>
        <PickFile label="Load another in its place" accept=".yaml,.yml,.csv,.txt" onPick={load} />
      </div>
      {trouble !== '' && (
        <p class="wrong" role="alert">
          {trouble}
        </p>
      )}
    </Fold>
  );
}

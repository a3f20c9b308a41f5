import { useEffect, useState } from 'preact/hooks';
import type { Bench } from '../state/bench.js';
import type { Drawer } from '../state/drawer.js';
import { saveAs } from '../state/files.js';
import { count } from './words.js';

let drawer: Drawer | null = null;
export const keptIn = (open: Drawer): void => {
  drawer = open;
};

/** Moves a record that cannot be read out of the way, whole. */
export const setAside = async (name: string): Promise<void> => drawer?.setAside(name);

const save = (name: string, held: unknown): void =>
  saveAs(name, `${JSON.stringify(held, null, 2)}\n`, 'application/json');

/** Hands out all that this device keeps, as it is. */
export function SaveAll() {
  const [done, setDone] = useState('');
  const all = async (): Promise<void> => {
    save('pourwright-drawer.json', await drawer?.all());
    setDone('Saved as pourwright-drawer.json.');
  };
  return (
    <>
      <button type="button" class="button" onClick={() => void all()}>
        Save everything that is kept
      </button>
      <span role="status">{done}</span>
    </>
  );
}

/** What this device keeps, to be handed out at any time: all of it, or what could not be read and was set aside. */
export function Kept({ bench }: { readonly bench: Bench }) {
  const [aside, setAsideNames] = useState<readonly string[]>([]);
  useEffect(() => {
    let alive = true;
    void drawer?.aside().then((held) => alive && setAsideNames(held.map((h) => h.name)));
    return () => {
      alive = false;
    };
  }, [bench.troubles]);
  const files = Object.keys(bench.folder).length;
  return (
    <section aria-labelledby="kept-title">
      <h2 id="kept-title">What this device keeps</h2>
      <p class="hint">
        {files === 0 ? 'No files yet' : count(files, 'file')}
        {aside.length > 0 && `, and ${count(aside.length, 'record')} set aside because it could not be read`}. Nothing
        leaves this device but what you save.
      </p>
      {aside.length > 0 && (
        <ul class="plain">
          {aside.map((name) => (
            <li key={name}>{name.replace(/ (\d{4}-\d\d-\d\d)T\S+$/, ', set aside $1')}</li>
          ))}
        </ul>
      )}
      <div class="row wrap onward">
        <SaveAll />
        {aside.length > 0 && (
          <button
            type="button"
            class="button"
            onClick={() => void drawer?.aside().then((held) => save('pourwright-set-aside.json', held))}
          >
            Save what was set aside
          </button>
        )}
      </div>
    </section>
  );
}

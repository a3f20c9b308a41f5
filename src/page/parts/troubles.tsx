import { useState } from 'preact/hooks';
import { bench, update } from '../state/bench.js';
import type { Drawer, Trouble } from '../state/drawer.js';
import { saveAs } from '../state/files.js';

let drawer: Drawer | null = null;
export const troublesOf = (open: Drawer): void => {
  drawer = open;
};

/** What this device could not keep or read. Nothing is thrown away here; a broken record is moved aside, whole. */
export function Troubles({ troubles }: { readonly troubles: readonly Trouble[] }) {
  const [done, setDone] = useState('');
  if (troubles.length === 0) return null;
  const save = async (): Promise<void> => {
    saveAs('pourwright-drawer.json', JSON.stringify(await drawer?.all(), null, 2), 'application/json');
    setDone('Saved as pourwright-drawer.json.');
  };
  const setAside = async (name: string): Promise<void> => {
    await drawer?.setAside(name);
    update({ troubles: bench.troubles.filter((t) => t.name !== name) });
  };
  return (
    <section class="notices trouble" role="alert" aria-label="Trouble with what is kept">
      <h2>What this device keeps</h2>
      <ul>
        {troubles.map((t) => (
          <li key={`${t.name} ${t.message}`}>
            {t.name !== null && <b>{t.name}: </b>}
            {t.message}{' '}
            {t.name !== null && (
              <button type="button" class="relax" onClick={() => void setAside(t.name!)}>
                Set it aside
              </button>
            )}
          </li>
        ))}
      </ul>
      <div class="row wrap">
        <button type="button" class="button" onClick={() => void save()}>
          Save everything that is kept
        </button>
        <span role="status">{done}</span>
      </div>
    </section>
  );
}

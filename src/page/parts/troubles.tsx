import { bench, update } from '../state/bench.js';
import type { Trouble } from '../state/drawer.js';
import { SaveAll, setAside } from './kept.js';

/** What this device could not keep or read. Nothing is thrown away here; a broken record is moved aside, whole. */
export function Troubles({ troubles }: { readonly troubles: readonly Trouble[] }) {
  if (troubles.length === 0) return null;
  const move = async (name: string): Promise<void> => {
    await setAside(name);
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
              <button type="button" class="relax" onClick={() => void move(t.name!)}>
                Set it aside
              </button>
            )}
          </li>
        ))}
      </ul>
      <div class="row wrap">
        <SaveAll />
      </div>
    </section>
  );
}

import { useEffect, useState } from 'preact/hooks';
import { bench, say, update } from '../state/bench.js';
import { type Clock, clockText } from '../state/clocks.js';
import { ring } from './bell.js';

const SECOND = 1000;

/** The moment, told anew each second while a clock runs. */
function useNow(running: boolean): number {
  const [now, set] = useState(Date.now());
  useEffect(() => {
    if (!running) return;
    const timer = setInterval(() => set(Date.now()), SECOND);
    return () => clearInterval(timer);
  }, [running]);
  return now;
}

/** Clocks that run on whatever step is in view, and through a reload; each bell rings once. */
export function Clocks({ clocks }: { readonly clocks: readonly Clock[] }) {
  const now = useNow(clocks.length > 0);
  if (clocks.length === 0) return null;
  return (
    <section class="group clocks" aria-labelledby="running-title">
      <h2 id="running-title">Running</h2>
      {clocks.map((clock) => {
        const next = clock.bells.find((b) => clock.started + b.after > now);
        return (
          <div class="clock" key={clock.id}>
            <div class="row">
              <h3>{clock.title}</h3>
              <time class="since">{clockText(now - clock.started)}</time>
              <button
                type="button"
                class="quiet"
                aria-label={`Stop the clock of ${clock.title}`}
                onClick={() => stop(clock.id)}
              >
                Stop
              </button>
            </div>
            <ul>
              {clock.bells.map((b) => {
                const left = clock.started + b.after - now;
                return (
                  <li key={b.id} class={left <= 0 ? 'due' : b === next ? 'next' : undefined}>
                    <span>{b.name}</span>
                    <span>{left <= 0 ? `due, ${clockText(left)} ago` : `in ${clockText(left)}`}</span>
                  </li>
                );
              })}
            </ul>
          </div>
        );
      })}
    </section>
  );
}

const stop = (id: string): void => update({ clocks: bench.clocks.filter((c) => c.id !== id) });

/** Rings bells that fall due, on every step. */
export function watchBells(): void {
  setInterval(() => {
    const now = Date.now();
    const due = bench.clocks.flatMap((c) =>
      c.bells.filter((b) => !b.rung && c.started + b.after <= now).map((b) => ({ c, b })),
    );
    if (due.length === 0) return;
    ring();
    say(due.map(({ c, b }) => `${c.title}: ${b.name}.`).join(' '));
    update({
      clocks: bench.clocks.map((c) => ({
        ...c,
        bells: c.bells.map((b) => (c.started + b.after <= now ? { ...b, rung: true } : b)),
      })),
    });
  }, SECOND);
}

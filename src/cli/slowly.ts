import type { Io } from './io.js';

const SECOND = 1000;

/** Tells on standard error what is going on, from the second second on and at most once a second. */
export function slowly(io: Io): (what: string) => void {
  let last = Date.now();
  return (what) => {
    const now = Date.now();
    if (now - last < SECOND) return;
    last = now;
    io.err(`pourwright: ${what} …\n`);
  };
}

import { render } from 'preact';
import { App } from './app.js';
import { keepUnits } from './parts/keep-units.js';
import { keptIn } from './parts/kept.js';
import { useDesks } from './state/answers.js';
import { bench, update, watch } from './state/bench.js';
import { Desk } from './state/desk.js';
import { openDrawer } from './state/drawer.js';
import { keepAll, keepIn } from './state/files.js';
import { startLive } from './state/live.js';
import { marksKept, readMarks } from './state/marks.js';
import { askAt } from './state/once.js';
import { shippedTable } from './state/shipped.js';
import { watchBells } from './steps/clocks.js';
import { serveAnswers } from './worker/serve.js';

/** One script for the page and its workers, so that the core is in the file once. */
export function begin(): void {
  if (typeof document === 'undefined') serveAnswers(self as never);
  else void start(document.currentScript?.textContent ?? '');
}

async function start(source: string): Promise<void> {
  const quick = new Desk(source, shippedTable());
  const steady = new Desk(source, shippedTable());
  const patient = new Desk(source, shippedTable());
  useDesks(steady, patient);
  askAt(steady);
  const drawer = await openDrawer();
  keepIn(drawer);
  keptIn(drawer);
  update({ folder: drawer.papers, troubles: drawer.troubles, ...readMarks(drawer.marks, drawer.papers) });
  watch((now, before) => marksKept(drawer, now, before));
  addEventListener('pagehide', keepAll);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && keepAll());
  const place = document.getElementById('bench')!;
  place.replaceChildren();
  keepUnits();
  render(<App />, place);
  startLive(quick, steady);
  watchBells();
  if (bench.brief !== null && location.hash === '') location.hash = bench.step;
}

import { useEffect, useState } from 'preact/hooks';
import type { AskKind, Asks } from '../worker/asks.js';
import type { Folder } from '../worker/folder.js';
import type { Notice } from '../worker/notice.js';
import type { Desk } from './desk.js';

let desk: Desk | null = null;

/** The worker that steps ask; set once at the start. */
export const useDesk = (steady: Desk): void => {
  desk = steady;
};

export interface Had<T> {
  readonly value: T | null;
  readonly problems: readonly Notice[];
  readonly busy: boolean;
}

const SETTLE = 120;

/** Asks whenever the question or the files change; the last answer stays in view until the next one comes. */
export function useAnswer<K extends AskKind>(
  channel: string,
  kind: K,
  folder: Folder,
  ask: Asks[K]['ask'] | null,
): Had<Asks[K]['answer']> {
  const [had, set] = useState<Had<Asks[K]['answer']>>({ value: null, problems: [], busy: true });
  const question = ask === null ? null : JSON.stringify(ask);
  useEffect(() => {
    if (question === null) return;
    let alive = true;
    set((h) => ({ ...h, busy: true }));
    const timer = setTimeout(() => {
      void desk!.ask(channel, kind, folder, JSON.parse(question) as Asks[K]['ask']).then((answer) => {
        if (answer === null || !alive) return;
        if (answer.ok) set({ value: answer.value, problems: [], busy: false });
        else set((h) => ({ ...h, problems: answer.problems, busy: false }));
      });
    }, SETTLE);
    return () => {
      alive = false;
      clearTimeout(timer);
    };
  }, [channel, kind, folder, question]);
  return had;
}

import { useEffect, useState } from 'preact/hooks';
import type { AskKind, Asks } from '../worker/asks.js';
import type { Folder } from '../worker/folder.js';
import type { Notice } from '../worker/notice.js';
import type { Desk } from './desk.js';

let desk: Desk | null = null;
let slow: Desk | null = null;

/** Questions that may take seconds have a worker of their own, and are broken off when they change. */
const SLOW: ReadonlySet<AskKind> = new Set(['standIn', 'order', 'others', 'frontier', 'waysOut', 'sure', 'reasons']);

/** The workers that steps ask; set once at the start. */
export const useDesks = (steady: Desk, patient: Desk): void => {
  desk = steady;
  slow = patient;
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
      const asked = SLOW.has(kind) ? slow! : desk!;
      void asked.ask(channel, kind, folder, JSON.parse(question) as Asks[K]['ask']).then((answer) => {
        if (answer === null || !alive) return;
        if (answer.ok) set({ value: answer.value, problems: [], busy: false });
        else set((h) => ({ ...h, problems: answer.problems, busy: false }));
      });
    }, SETTLE);
    return () => {
      alive = false;
      clearTimeout(timer);
      if (SLOW.has(kind)) slow!.drop(channel);
    };
  }, [channel, kind, folder, question]);
  return had;
}

import type { Answer, AskKind, Asks, Request, Response } from '../worker/asks.js';
import type { Folder } from '../worker/folder.js';
import { trusted } from './trusted.js';

/** null: a newer question took the place of this one. */
export type Reply<K extends AskKind> = Answer<Asks[K]['answer']> | null;

interface Waiting {
  readonly request: Request;
  readonly settle: (answer: Answer<unknown> | null) => void;
}

/**
 * One worker with a queue of one question per channel: while it works, a newer question of the same channel takes the
 * place of the one that waits, so that work never piles up behind a moving slider.
 */
export class Desk {
  readonly #source: string;
  readonly #table: unknown;
  #worker: Worker | null = null;
  readonly #queue = new Map<string, Waiting>();
  #busy: { readonly channel: string; readonly waiting: Waiting } | null = null;
  #next = 1;

  /** The worker starts with the first question. */
  constructor(source: string, table: unknown) {
    this.#source = source;
    this.#table = table;
  }

  #started(): Worker {
    if (this.#worker !== null) return this.#worker;
    const url = URL.createObjectURL(new Blob([this.#source], { type: 'text/javascript' }));
    const worker = new Worker(trusted().createScriptURL(url));
    worker.postMessage({ table: this.#table });
    worker.addEventListener('message', (event: MessageEvent<Response>) => this.#answered(event.data));
    this.#worker = worker;
    return worker;
  }

  /** Work that nobody waits for any more is broken off; the next question starts a new worker. */
  drop(channel: string): void {
    this.#queue.get(channel)?.settle(null);
    this.#queue.delete(channel);
    if (this.#busy?.channel !== channel) return;
    this.#worker?.terminate();
    this.#worker = null;
    this.#busy.waiting.settle(null);
    this.#busy = null;
    this.#send();
  }

  ask<K extends AskKind>(channel: string, kind: K, folder: Folder, ask: Asks[K]['ask']): Promise<Reply<K>> {
    return new Promise((resolve) => {
      const request = { id: this.#next++, kind, folder, ask };
      this.#queue.get(channel)?.settle(null);
      // Asked again from the back of the line, so that one busy channel cannot starve the others.
      this.#queue.delete(channel);
      this.#queue.set(channel, { request, settle: resolve as Waiting['settle'] });
      this.#send();
    });
  }

  #send(): void {
    if (this.#busy !== null) return;
    const first = this.#queue.entries().next().value;
    if (first === undefined) return;
    const [channel, waiting] = first;
    this.#queue.delete(channel);
    this.#busy = { channel, waiting };
    this.#started().postMessage(waiting.request);
  }

  #answered({ answer }: Response): void {
    const { waiting } = this.#busy!;
    this.#busy = null;
    waiting.settle(answer);
    this.#send();
  }
}

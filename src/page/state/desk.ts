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
  readonly #worker: Worker;
  readonly #queue = new Map<string, Waiting>();
  #busy: { readonly waiting: Waiting } | null = null;
  #next = 1;

  constructor(source: string, table: unknown) {
    const url = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
    this.#worker = new Worker(trusted().createScriptURL(url));
    this.#worker.postMessage({ table });
    this.#worker.addEventListener('message', (event: MessageEvent<Response>) => this.#answered(event.data));
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
    this.#busy = { waiting };
    this.#worker.postMessage(waiting.request);
  }

  #answered({ answer }: Response): void {
    const { waiting } = this.#busy!;
    this.#busy = null;
    waiting.settle(answer);
    this.#send();
  }
}

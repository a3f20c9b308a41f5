import { InputProblems, problemResult } from '../../core/index.js';
import { type Answers, answers } from './answers.js';
import type { Answer, AskKind, Request, Response } from './asks.js';
import type { ShippedTable } from './open.js';

/** What a worker listens to: first the table, then requests, one answer each. */
interface Line {
  addEventListener(type: 'message', listener: (event: MessageEvent) => void): void;
  postMessage(message: Response): void;
}

export function serveAnswers(line: Line): void {
  let all: Answers | null = null;
  line.addEventListener('message', (event: MessageEvent) => {
    const message = event.data as { table: ShippedTable } | Request;
    if ('table' in message) {
      all = answers(message.table);
      return;
    }
    line.postMessage({ id: message.id, answer: answerTo(all!, message) });
  });
}

function answerTo<K extends AskKind>(all: Answers, { kind, folder, ask }: Request<K>): Answer<Asked<K>> {
  const began = performance.now();
  const took = () => performance.now() - began;
  try {
    return { ok: true, value: all[kind](folder, ask) as Asked<K>, took: took() };
  } catch (error) {
    if (error instanceof InputProblems) return { ok: false, problems: error.problems.map(problemResult), took: took() };
    const message = `Something went wrong in the page itself: ${error instanceof Error ? error.message : String(error)}`;
    return { ok: false, problems: [{ code: 'other', severity: 'error', message }], took: took() };
  }
}

type Asked<K extends AskKind> = ReturnType<Answers[K]>;

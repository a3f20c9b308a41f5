import { readStdin } from './files.js';
import { standardOutput, write } from './standard-output.js';

/** All that a command may touch of the outside; tests hand in their own. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly stdin: () => Promise<Uint8Array>;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Columns of the terminal, or null when the output is not one. */
  readonly columns: number | null;
  readonly colour: boolean;
  /** Whether a person is at the keyboard. */
  readonly interactive: boolean;
  /** Asks the person one line; null when they end the input. Only where `interactive`. */
  readonly ask: (question: string) => Promise<string | null>;
  /** Today by this machine's calendar, year-month-day. The core has no clock. */
  readonly today: () => string;
}

/** The real outside. */
export function processIo(): Io {
  const { env } = process;
  const { out, terminal } = standardOutput();
  return {
    out,
    err: (text) => write(process.stderr, text),
    stdin: readStdin,
    env,
    columns: terminal === null ? null : (terminal.columns ?? 80),
    colour: terminal !== null && env['NO_COLOR'] === undefined && env['TERM'] !== 'dumb',
    // Opening the standard input takes a fiftieth of a second, and few commands listen.
    get interactive() {
      return terminal !== null && process.stdin.isTTY === true;
    },
    ask: askAtTerminal,
    today: () => isoOf(new Date()),
  };
}

async function askAtTerminal(question: string): Promise<string | null> {
  const { createInterface } = await import('node:readline');
  const lines = createInterface({ input: process.stdin, output: process.stdout });
  return new Promise((resolve) => {
    let answer: string | null = null;
    lines.on('close', () => resolve(answer));
    lines.on('SIGINT', () => lines.close());
    lines.question(question, (text) => {
      answer = text;
      lines.close();
    });
  });
}

const isoOf = (date: Date): string => {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
};

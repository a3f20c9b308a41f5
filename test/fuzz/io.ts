import type { Io } from '../../src/cli/io.js';

/** An outside that only listens: nothing on standard input, nobody at the keyboard, a fixed day. */
export function ioOf(stdin: Uint8Array = new Uint8Array()): {
  readonly io: Io;
  readonly said: { out: string; err: string };
} {
  const said = { out: '', err: '' };
  const io: Io = {
    out: (text) => {
      said.out += text;
    },
    err: (text) => {
      said.err += text;
    },
    stdin: async () => stdin,
    env: {},
    columns: 100,
    colour: false,
    interactive: false,
    ask: async () => null,
    today: () => '2026-03-02',
  };
  return { io, said };
}

import type { Command } from 'commander';
import type { Io } from './io.js';
import type { ExitCode } from './run.js';

export interface Call {
  readonly io: Io;
  readonly options: Readonly<Record<string, unknown>>;
  readonly operands: readonly string[];
}

/** A verb is data and an action; what the action needs is loaded only when it is called. */
export interface Verb {
  /** Name and operands, such as "propose <brief>". */
  readonly usage: string;
  readonly summary: string;
  /** A file that it reads, printed under its options. */
  readonly example?: string;
  readonly options: (command: Command) => void;
  readonly act: (call: Call) => Promise<ExitCode>;
}

export const nameOf = (verb: Verb): string => verb.usage.split(' ')[0]!;

import type { problemResult } from '../../core/index.js';

/** A problem with its words, as the command line prints it. */
export type Notice = ReturnType<typeof problemResult>;

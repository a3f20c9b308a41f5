/** What the one file of the command gives to whoever starts it: start.ts, or the build, which compiles it ahead. */
export { processIo } from './io.js';
export { run } from './run.js';
export { allWritten } from './standard-output.js';

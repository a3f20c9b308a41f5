/** What the one file of the command gives to whoever starts it: start.ts, or the build, which compiles it ahead. */
export { allWritten, processIo } from './io.js';
export { run } from './run.js';

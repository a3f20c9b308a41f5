import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { loadCompiled } from './compiled.js';
import { FAULT, faultWords } from './fault.js';

/**
 * V8 rewrites in its best code what ran for a while, on another thread, and stops the program to swap it in. A command
 * lives for a quarter of a second: told to wait nine times as long (67,584 is its own), it ends a fifth sooner, and
 * commands of seconds no later (measured, `npm run bench`).
 */
const PATIENCE = '--interrupt-budget=600000';

/** Nor are threads of help worth calling for a young heap of a few megabytes (3 % of `propose`, two cores). */
const ALONE = '--no-parallel-scavenge';

async function start(): Promise<number> {
  try {
    const { script, command } = loadCompiled(
      join(__dirname, 'command.cjs'),
      join(__dirname, 'command.compiled'),
      require,
    );
    // Only for the version of V8 that the build knew: another may have other flags.
    if (script.cachedDataRejected === false) for (const flag of [PATIENCE, ALONE]) setFlagsFromString(flag);
    const code = await command.run(process.argv.slice(2), command.processIo());
    await command.allWritten();
    return code;
  } catch (error) {
    const words = faultWords(error, process.env['POURWRIGHT_TRACE'] !== undefined);
    await new Promise<void>((done) => void process.stderr.write(words, () => process.stdout.write('', () => done())));
    return FAULT;
  }
}

// Once all is written, ending at once spares taking the whole heap apart.
start().then((code) => process.exit(code));

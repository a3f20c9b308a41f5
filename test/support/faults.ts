import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { uniform } from '../../src/core/blend/sampling.js';

/** What a trial came to: a figure for each thing counted, and what is wrong. `skipped` says why it could not be had here. */
export interface Trial {
  readonly counted: Readonly<Record<string, number>>;
  readonly faults: readonly string[];
  readonly skipped?: string;
}

/** A script of test/support as one plain file, so that a child starts in milliseconds. */
export async function built(name: 'appender' | 'saver', folder: string): Promise<string> {
  const { build } = await import('esbuild');
  const outfile = join(folder, `${name}.mjs`);
  const entry = fileURLToPath(new URL(`./${name}.ts`, import.meta.url));
  await build({ entryPoints: [entry], outfile, bundle: true, platform: 'node', format: 'esm', logLevel: 'error' });
  return outfile;
}

async function inFolder(work: (folder: string) => Promise<Trial>): Promise<Trial> {
  const folder = mkdtempSync(join(tmpdir(), 'pourwright-faults-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The version in a file by its own words; undefined when it is not whole. */
function versionOf(text: string): string | undefined {
  const end = text.indexOf('\n');
  const body = text.slice(end + 1);
  const whole = createHash('sha256').update(body).digest('hex') === text.slice(0, end);
  return whole ? body.slice(0, body.indexOf('\n')) : undefined;
}

/** Savers of one file, each killed with SIGKILL after a seeded moment: the file is always one whole version, and none older than the last that was called saved. */
export const killSaves = (rounds: number, seed: number): Promise<Trial> =>
  inFolder(async (folder) => {
    const script = await built('saver', folder);
    const place = join(folder, 'place');
    mkdirSync(place);
    const file = join(place, 'learned.yaml');
    const next = uniform(seed);
    const faults: string[] = [];
    let saved = 0;
    let killed = 0;
    for (let round = 0; round < rounds; round++) {
      const { said, wasKilled } = await killedAfter(script, [file, `r${round}`, '100000'], 5 + 60 * next());
      if (wasKilled) killed++;
      saved += said.length;
      if (said.length === 0) continue;
      const version = versionOf(readFileSync(file, 'utf8'));
      if (version === undefined) faults.push(`round ${round}: the file is torn`);
      else if (!version.startsWith(`r${round} `) || Number(version.split(' ')[1]) < said.length - 1)
        faults.push(`round ${round}: ${said.at(-1)} was called saved, and ${version} is there`);
    }
    const left = readdirSync(place).filter((name) => name !== 'learned.yaml').length;
    return { counted: { rounds, killed, saved, 'left-over temporary files': left }, faults };
  });

function killedAfter(script: string, args: readonly string[], lifeMs: number) {
  return new Promise<{ said: string[]; wasKilled: boolean }>((resolve) => {
    const child = spawn(process.execPath, [script, ...args], { stdio: ['ignore', 'pipe', 'ignore'] });
    let out = '';
    let timer: NodeJS.Timeout | undefined;
    child.stdout.on('data', (chunk: Buffer) => {
      timer ??= setTimeout(() => child.kill('SIGKILL'), lifeMs);
      out += chunk.toString();
    });
    child.on('close', (_code, signal) => {
      clearTimeout(timer);
      resolve({ said: out.split('\n').slice(0, -1), wasKilled: signal === 'SIGKILL' });
    });
  });
}

interface Tried {
  readonly status: number | null;
  readonly said: string[];
  readonly err: string;
}

function tried(script: string, args: readonly string[], options: { uid?: number; limit?: number } = {}): Tried {
  const command =
    options.limit === undefined
      ? { file: process.execPath, args: [script, ...args] }
      : { file: 'sh', args: ['-c', `ulimit -f ${options.limit}; exec "$@"`, 'sh', process.execPath, script, ...args] };
  const { status, stdout, stderr } = spawnSync(command.file, command.args, {
    encoding: 'utf8',
    timeout: 60_000,
    ...(options.uid === undefined ? {} : { uid: options.uid, gid: options.uid }),
  });
  return { status, said: stdout.split('\n').slice(0, -1), err: stderr };
}

/** Ends a process with problems only: what the system would not do is said in one problem, not a crash of another kind. */
const toldPlainly = ({ err }: Tried): boolean => err.includes('file-not-written') && !err.includes('SystemError');

/** Nobody's user number: root may write anywhere, so that a read-only folder has to be tried as someone else. */
const NOBODY = 65_534;

/** A folder that may only be read: both writers say so, and nothing in it changes. */
export const readOnlyFolder = (): Promise<Trial> =>
  inFolder(async (folder) => {
    const uid = process.getuid?.() === 0 ? NOBODY : undefined;
    const scripts = [await built('appender', folder), await built('saver', folder)];
    const place = join(folder, 'place');
    mkdirSync(place);
    writeFileSync(join(place, 'log.csv'), 'who,i,filler,end\n');
    chmodSync(folder, 0o755);
    chmodSync(place, 0o555);
    const faults: string[] = [];
    for (const script of scripts) {
      const one = tried(script, [join(place, 'log.csv'), 'r', '1'], uid === undefined ? {} : { uid });
      if (one.status === 0 || one.said.length > 0)
        faults.push('a write was called done in a folder that may only be read');
      if (!toldPlainly(one)) faults.push(`not told plainly: ${one.err.slice(0, 300)}`);
    }
    const names = readdirSync(place);
    if (names.join() !== 'log.csv') faults.push(`the folder now holds ${names.join(', ')}`);
    if (readFileSync(join(place, 'log.csv'), 'utf8') !== 'who,i,filler,end\n') faults.push('the file has changed');
    chmodSync(place, 0o755);
    return { counted: { writers: scripts.length }, faults };
  });

/** What stands in a log after the disk was full: every acknowledged line whole, at most the last one torn. */
function logFaults(text: string, said: readonly string[]): string[] {
  const faults: string[] = [];
  const lines = text.split('\n');
  const whole = new Set<string>();
  let torn = 0;
  for (const line of lines.slice(1)) {
    const parts = /^(\w+),(\d+),"?(x*)"?,(\d+)$/.exec(line);
    if (parts !== null && parts[3]!.length === Number(parts[4])) whole.add(`${parts[1]} ${parts[2]}`);
    else if (line !== '') torn++;
  }
  for (const key of said) if (!whole.has(key)) faults.push(`${key} was called written and is lost`);
  if (torn > 0) faults.push(`${torn} torn lines`);
  return faults;
}

function fullTrial(place: string, scripts: { append: string; save: string }, limit?: number): Trial {
  const options = limit === undefined ? {} : { limit };
  const log = join(place, 'log.csv');
  const one = tried(scripts.append, [log, 'a', '1000'], options);
  const faults = logFaults(readFileSync(log, 'utf8'), one.said);
  if (one.status === 0) faults.push('a thousand lines fitted: the disk was not full');
  if (!toldPlainly(one)) faults.push(`not told plainly: ${one.err.slice(0, 300)}`);
  if (existsSync(`${log}.lock`)) faults.push('the lock is left over');
  rmSync(log, { force: true });
  const file = join(place, 'learned.yaml');
  const two = tried(scripts.save, [file, 's', '1000'], options);
  const version = versionOf(readFileSync(file, 'utf8'));
  if (two.status === 0) faults.push('a thousand saves fitted: the disk was not full');
  if (version !== two.said.at(-1)) faults.push(`${two.said.at(-1)} was called saved, and ${version} is there`);
  if (!toldPlainly(two)) faults.push(`not told plainly: ${two.err.slice(0, 300)}`);
  const left = readdirSync(place).filter((name) => name !== 'learned.yaml');
  if (left.length > 0) faults.push(`left behind: ${left.join(', ')}`);
  return { counted: { 'lines called written': one.said.length, 'saves called done': two.said.length }, faults };
}

/** A small disk in memory that runs full. Mounting needs rights that not every machine gives. */
export const fullDisk = (): Promise<Trial> =>
  inFolder(async (folder) => {
    const scripts = { append: await built('appender', folder), save: await built('saver', folder) };
    const place = join(folder, 'place');
    mkdirSync(place);
    const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=160k', 'tmpfs', place], { encoding: 'utf8' });
    if (mounted.status !== 0)
      return {
        counted: {},
        faults: [],
        skipped: `no small disk can be mounted here: ${(mounted.stderr || String(mounted.error)).trim()}`,
      };
    try {
      return fullTrial(place, scripts);
    } finally {
      spawnSync('umount', [place]);
    }
  });

/** The same by the system's limit on the size of a file, which any user may set: a write is cut short, then refused. */
export const fullQuota = (): Promise<Trial> =>
  inFolder(async (folder) => {
    const scripts = { append: await built('appender', folder), save: await built('saver', folder) };
    const place = join(folder, 'place');
    mkdirSync(place);
    return fullTrial(place, scripts, 100);
  });

import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { uniform } from '../../src/core/blend/sampling.js';

/** The appender as one plain script, so that a child starts in milliseconds. */
export async function builtAppender(folder: string): Promise<string> {
  const { build } = await import('esbuild');
  const outfile = join(folder, 'appender.mjs');
  const entry = fileURLToPath(new URL('./appender.ts', import.meta.url));
  await build({ entryPoints: [entry], outfile, bundle: true, platform: 'node', format: 'esm', logLevel: 'error' });
  return outfile;
}

export interface KillResult {
  /** Children killed while they were still writing. */
  readonly killed: number;
  /** Lines that a child had called written before it died. */
  readonly promised: number;
  /** Lines in the file in the end, the heading left out. */
  readonly written: number;
  /** What is wrong with the file; empty when nothing is. */
  readonly faults: readonly string[];
}

/**
 * Rounds of children appending to one file, each killed with SIGKILL after a seeded moment; `together` at a time. In the
 * end: every line that was called written is there, once and whole, and no line is torn.
 */
export async function killAppends(rounds: number, together: number, seed: number): Promise<KillResult> {
  const folder = mkdtempSync(join(tmpdir(), 'pourwright-kill-'));
  try {
    const script = await builtAppender(folder);
    const file = join(folder, 'log.csv');
    const next = uniform(seed);
    const promised: string[] = [];
    let killed = 0;
    for (let round = 0; round < rounds; round++) {
      const children = Array.from({ length: together }, (_v, c) =>
        oneChild(script, file, `r${round}c${c}`, 10 + 120 * next()),
      );
      for (const { said, wasKilled } of await Promise.all(children)) {
        promised.push(...said);
        if (wasKilled) killed++;
      }
    }
    // A last writer mends whatever the last kill may have left.
    const last = await oneChild(script, file, 'last', 60_000, 1);
    promised.push(...last.said);
    const text = readFileSync(file, 'utf8');
    return { killed, promised: promised.length, ...inspect(text, promised) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function oneChild(script: string, file: string, name: string, lifeMs: number, count = 100_000) {
  return new Promise<{ said: string[]; wasKilled: boolean }>((resolve, reject) => {
    const child = spawn(process.execPath, [script, file, name, String(count)], { stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '';
    let err = '';
    let timer: NodeJS.Timeout | undefined;
    child.stdout.on('data', (chunk: Buffer) => {
      // The life counts from the first line, so that a slow start is not all that is killed.
      timer ??= setTimeout(() => child.kill('SIGKILL'), lifeMs);
      out += chunk.toString();
    });
    child.stderr.on('data', (chunk: Buffer) => {
      err += chunk.toString();
    });
    child.on('error', reject);
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      if (code !== 0 && signal === null) reject(new Error(`appender ended with ${code}: ${err}`));
      // The last line of stdout may itself be cut off: then it was not yet called written.
      else resolve({ said: out.split('\n').slice(0, -1), wasKilled: signal === 'SIGKILL' });
    });
  });
}

function inspect(text: string, promised: readonly string[]): { written: number; faults: string[] } {
  const faults: string[] = [];
  const lines = text.split('\n');
  if (lines.pop() !== '') faults.push('the file does not end with a line end');
  if (lines[0] !== 'who,i,filler,end') faults.push(`the first line is ${lines[0]?.slice(0, 40)}`);
  const seen = new Map<string, number>();
  for (const [n, line] of lines.slice(1).entries()) {
    const parts = /^(\w+),(\d+),"?(x*)"?,(\d+)$/.exec(line);
    if (parts === null || parts[3]!.length !== Number(parts[4])) {
      faults.push(`line ${n + 2} is torn: ${line.slice(0, 40)}… (${line.length})`);
      continue;
    }
    const key = `${parts[1]} ${parts[2]}`;
    seen.set(key, (seen.get(key) ?? 0) + 1);
  }
  for (const key of promised) if (!seen.has(key)) faults.push(`${key} was called written and is lost`);
  for (const [key, times] of seen) if (times > 1) faults.push(`${key} is there ${times} times`);
  return { written: seen.size, faults };
}

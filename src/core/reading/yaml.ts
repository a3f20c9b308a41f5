import { type Document, isAlias, isMap, isScalar, isSeq, LineCounter, type Node, type Pair, parseDocument } from 'yaml';
import { type Gather, gather } from '../problems/gather.js';
import { refuse, type Where } from '../problems/problem.js';
import { type Located, type Path, pathText } from './located.js';

export interface YamlLimits {
  /** Characters of the file. */
  readonly size?: number;
  /** Values in the file, each alias counted as often as it is used. */
  readonly values?: number;
  readonly depth?: number;
}

const USUAL_LIMITS: Required<YamlLimits> = { size: 400_000, values: 50_000, depth: 40 };
const MOST_SYNTAX_ERRORS = 5;
const MOST_PROBLEMS = 100;
/** The library's own messages may quote all the rest of the file. */
const LONGEST_REASON = 160;

/** Keys that would reach into the language instead of the data. */
const RESERVED: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

/**
 * Reads one YAML 1.2 document into plain data that remembers its lines.
 *
 * Refuses (InputProblems, each with line and column): malformed YAML, an empty document, two documents, repeated keys,
 * keys that are not plain words, custom tags, and files beyond the limits, counting what aliases unfold to.
 */
export function readYaml(text: string, file: string, limits: YamlLimits = {}): Located {
  const allowed = { ...USUAL_LIMITS, ...limits };
  if (text.length > allowed.size) {
    const expected = `at most ${allowed.size} characters`;
    refuse({ code: 'file-too-large', where: { file }, found: `${text.length} characters`, expected });
  }
  const lines = new LineCounter();
  // Repeated keys are found below: the library compares every key with every other.
  const document = parseDocument(text, { uniqueKeys: false, prettyErrors: false, lineCounter: lines });
  const at = (offset: number | undefined): Where => {
    if (offset === undefined) return { file };
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col };
  };
  const noted = gather();
  for (const error of [...document.errors, ...document.warnings].slice(0, MOST_SYNTAX_ERRORS))
    noted.add({ code: 'yaml-malformed', severity: 'error', where: at(error.pos[0]), hint: plainReason(error) });
  noted.finish();
  if (document.contents === null || (isScalar(document.contents) && document.contents.value === null))
    refuse({ code: 'file-empty', where: { file } });

  const data = toData(document, text, allowed, at, noted);
  noted.finish();
  return { file, data, where: (path) => locate(document, path, file, at) };
}

function plainReason(error: { code: string; message: string }): string {
  if (error.code === 'RESOURCE_EXHAUSTION') return 'it is nested too deeply';
  if (error.code === 'TAB_AS_INDENT') return 'indent with spaces, not with tabs';
  if (error.code === 'MULTIPLE_DOCS') return 'keep one document in a file: take out the line “---”';
  if (error.code === 'BLOCK_AS_IMPLICIT_KEY')
    return 'put each “name: value” on its own line, or quote a text that holds “: ”';
  return error.message.split('\n')[0]?.slice(0, LONGEST_REASON) ?? 'it cannot be read';
}

/** Walks the nodes once and builds plain objects, lists and values. Aliases are unfolded within the limits. */
function toData(
  document: Document,
  text: string,
  limits: Required<YamlLimits>,
  at: (offset: number | undefined) => Where,
  noted: Gather,
): unknown {
  const anchors = new Map<string, Node>();
  let values = 0;
  const offsetOf = (node: Node): number | undefined => node.range?.[0];

  const walk = (node: unknown, depth: number, path: Path): unknown => {
    if (node === null || node === undefined) return null;
    const here = node as Node;
    values += 1;
    if (values > limits.values || depth > limits.depth) {
      const hint =
        depth > limits.depth ? 'it is nested too deeply' : 'it holds too many values once its aliases are unfolded';
      refuse({ code: 'yaml-malformed', where: at(offsetOf(here)), hint });
    }
    if (isAlias(here)) {
      const target = anchors.get(here.source);
      if (target) return walk(target, depth + 1, path);
      return refuse({
        code: 'yaml-malformed',
        where: at(offsetOf(here)),
        found: `*${here.source}`,
        hint: 'nothing above carries this name',
      });
    }
    const value = isMap(here)
      ? mapping(here.items as Pair[], depth, path)
      : isSeq(here)
        ? here.items.map((item, i) => walk(item, depth + 1, [...path, i]))
        : isScalar(here)
          ? here.value
          : null;
    // Named only once it is whole, so that nothing can hold itself.
    const anchor = (here as { anchor?: string }).anchor;
    if (anchor !== undefined) anchors.set(anchor, here);
    return value;
  };

  const mapping = (items: readonly Pair[], depth: number, path: Path): Record<string, unknown> => {
    const result: Record<string, unknown> = {};
    for (const [i, pair] of items.entries()) {
      if (noted.problems.length >= MOST_PROBLEMS) noted.finish();
      const key = keyText(pair.key);
      const keyAt = at((pair.key as Node | null)?.range?.[0]);
      if (key === undefined || RESERVED.has(key)) {
        const expected = 'a plain word as the name of a field';
        noted.add({
          code: 'field-unknown',
          severity: 'error',
          where: keyAt,
          ...(key !== undefined && { found: key }),
          expected,
        });
        continue;
      }
      const here = [...path, key];
      const split = splitNumber(items[i - 1], pair, text);
      if (split !== undefined) {
        const { key: before } = items[i - 1]!;
        const where = { ...at((before as Node).range?.[0]), path: pathText([...path, keyText(before)!])! };
        noted.add({ code: 'quantity-unreadable', severity: 'error', where, ...split });
        continue;
      }
      if (Object.hasOwn(result, key)) {
        const where = { ...keyAt, path: pathText(here)! };
        noted.add({ code: 'field-duplicate', severity: 'error', where, hint: 'keep one of them' });
        continue;
      }
      result[key] = walk(pair.value, depth + 1, here);
    }
    return result;
  };

  return walk(document.contents, 0, []);
}

/**
 * A number that a comma between braces has split: { max: 0,60 EUR } is a max of 0 and a field “60 EUR” without a value.
 * Quotes keep it whole, but before three figures a comma can mean thousands, quoted or not.
 */
function splitNumber(
  before: Pair | undefined,
  { key, value }: Pair,
  text: string,
): { readonly found: string; readonly expected: string; readonly hint: string } | undefined {
  const [head, tail] = [(before?.value as Node | null)?.range, (key as Node | null)?.range];
  if (!head || !tail || value !== null || text.slice(head[1], tail[0]) !== ',') return undefined;
  const [whole, part] = [text.slice(head[0], head[1]), text.slice(tail[0], tail[1])];
  if (!/\d$/.test(whole) || !/^\d/.test(part)) return undefined;
  const found = `${whole},${part}`;
  const other = /^\d{3}(?!\d)/.test(part) ? `“${whole}${part}”` : `in quotes, "${found}"`;
  return { found, expected: `“${whole}.${part}” or ${other}`, hint: 'between braces a comma begins the next field' };
}

function keyText(key: unknown): string | undefined {
  if (!isScalar(key) || key.value === null || typeof key.value === 'object') return undefined;
  return String(key.value);
}

/** Follows a path through the nodes as far as it goes; a field is where its key stands. */
function locate(document: Document, path: Path, file: string, at: (offset: number | undefined) => Where): Where {
  let node: unknown = document.contents;
  let offset: number | undefined;
  for (const step of path) {
    if (isMap(node)) {
      const pair = (node.items as Pair[]).find((item) => keyText(item.key) === step);
      if (!pair) break;
      offset = (pair.key as Node).range?.[0];
      node = pair.value;
    } else if (isSeq(node) && typeof step === 'number' && node.items[step]) {
      node = node.items[step];
      offset = (node as Node).range?.[0];
    } else break;
  }
  const text = pathText(path);
  const line = offset === undefined ? undefined : at(offset).line;
  return { file, ...(line !== undefined && { line }), ...(text !== undefined && { path: text }) };
}

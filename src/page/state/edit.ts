import { Document, isCollection, isMap, isNode, parseDocument } from 'yaml';

/** Edits of a maker's file that leave the rest of it, comments too, as it is. */

type Path = readonly (string | number)[];

const WIDTH = { lineWidth: 0 } as const;

/** Bare numbers are written bare, everything else as the maker typed it. */
const asWritten = (value: unknown): unknown =>
  typeof value === 'string' && /^(?:0|[1-9]\d*)(?:\.\d+)?$/.test(value.trim()) ? Number(value.trim()) : value;

/** The file with one field set; undefined or '' takes the field out, and groups that are left empty with it. */
export function withField(text: string, path: Path, value: unknown): string {
  const read = parseDocument(text, { uniqueKeys: false });
  if (read.errors.length > 0) return text;
  const document: Document = isMap(read.contents) ? read : new Document({});
  if (value === undefined || value === '') cut(document, path);
  else {
    makeWay(document, path);
    const before = document.getIn(path, true);
    const node = document.createNode(asWritten(value), { flow: path.length > 1 });
    // A comment that stands beside a figure stays when the figure changes.
    if (isNode(before)) Object.assign(node, { comment: before.comment, commentBefore: before.commentBefore });
    document.setIn(path, node);
  }
  return document.toString(WIDTH);
}

/** Groups on the way to a field that are missing or empty ("materials:") become groups. */
function makeWay(document: Document, path: Path): void {
  for (let depth = 1; depth < path.length; depth++) {
    const group = path.slice(0, depth);
    if (isCollection(document.getIn(group, true))) continue;
    const node = document.createNode({});
    if (depth > 1) node.flow = true;
    document.setIn(group, node);
  }
}

function cut(document: Document, path: Path): void {
  if (!document.hasIn(path)) return;
  document.deleteIn(path);
  const parent = path.slice(0, -1);
  if (parent.length === 0) return;
  const group = document.getIn(parent, true);
  if (isCollection(group) && group.items.length === 0) cut(document, parent);
}

/** Several fields at once, in order. */
export const withFields = (text: string, changes: readonly (readonly [Path, unknown])[]): string =>
  changes.reduce((t, [path, value]) => withField(t, path, value), text);

/** A file's data for forms; null when it is not readable YAML. Aliases of a hostile file are not unfolded without end. */
export function dataOf(text: string): Record<string, unknown> | null {
  try {
    const document = parseDocument(text, { uniqueKeys: false });
    if (document.errors.length > 0) return null;
    const data: unknown = document.toJS({ maxAliasCount: 100 });
    return typeof data === 'object' && data !== null && !Array.isArray(data) ? (data as Record<string, unknown>) : null;
  } catch {
    return null;
  }
}

/** One field of a file's data. */
export function fieldOf(data: unknown, path: Path): unknown {
  let value = data;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/** A field as the text of a form. */
export const textField = (data: unknown, path: Path): string => {
  const value = fieldOf(data, path);
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
};

export const listField = (data: unknown, path: Path): readonly string[] => {
  const value = fieldOf(data, path);
  return Array.isArray(value) ? value.filter((v) => typeof v === 'string') : [];
};

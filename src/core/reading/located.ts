import type { Where } from '../problems/problem.js';

/** Steps from the top of a file to one field: keys and list indexes. */
export type Path = readonly (string | number)[];

/** Data read from a file, with the way back to where each part stands. */
export interface Located {
  readonly file: string;
  readonly data: unknown;
  /** The place of a field; of the nearest part around it when the field itself is not there. */
  where(path: Path): Where;
}

/** "materials[2].density", or undefined for the top. */
export function pathText(path: Path): string | undefined {
  if (path.length === 0) return undefined;
  return path.map((step, i) => (typeof step === 'number' ? `[${step}]` : i === 0 ? step : `.${step}`)).join('');
}

/** Data that came from no text file (a JSON value, a form): places are paths without lines. */
export function unlined(data: unknown, file: string): Located {
  return {
    file,
    data,
    where(path) {
      const text = pathText(path);
      return text === undefined ? { file } : { file, path: text };
    },
  };
}

/** The value at a path, or undefined. Looks at own fields only. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/**
 * Places by dotted text ("targets.dry-weight.max", "materials[2].density"), for readers that build paths as text. Keys
 * that hold a point themselves are recognised by what the data has.
 */
export function dottedPlaces(located: Located): (dotted: string) => Where {
  return (dotted) => {
    const steps = stepsOf(located.data, dotted);
    const path = pathText(steps);
    const where = located.where(steps);
    return path === undefined ? where : { ...where, path };
  };
}

function stepsOf(data: unknown, dotted: string): Path {
  const text = dotted.replace(/\[(\d+)\]/g, '.$1');
  const steps: (string | number)[] = [];
  let value = data;
  // One past the end means that all of the text is spent.
  for (let at = 0; at <= text.length && text !== ''; ) {
    const end = text.indexOf('.', at);
    const key = longestKey(value, text, at) ?? text.slice(at, end < 0 ? text.length : end);
    steps.push(Array.isArray(value) ? Number(key) : key);
    value = valueAt(value, [key]);
    at += key.length + 1;
    // What is not there has no places inside.
    if (value === undefined) break;
  }
  return steps;
}

/** The longest of the data's own keys that the text goes on with. */
function longestKey(value: unknown, text: string, at: number): string | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  let longest: string | undefined;
  for (const key of Object.keys(value)) {
    const end = at + key.length;
    if (!(key.length > (longest?.length ?? -1)) || !text.startsWith(key, at)) continue;
    if (end === text.length || text[end] === '.') longest = key;
  }
  return longest;
}

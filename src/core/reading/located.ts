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
    const where = located.where(stepsOf(located.data, dotted));
    return dotted === '' ? where : { ...where, path: dotted };
  };
}

function stepsOf(data: unknown, dotted: string): Path {
  if (dotted === '') return [];
  const parts = dotted.replace(/\[(\d+)\]/g, '.$1').split('.');
  const steps: (string | number)[] = [];
  let value = data;
  for (let i = 0; i < parts.length; ) {
    const rest = parts.slice(i);
    const longest = rest.map((_, k) => rest.slice(0, rest.length - k).join('.'));
    const key = longest.find((text) => valueAt(value, [text]) !== undefined) ?? parts[i]!;
    steps.push(Array.isArray(value) ? Number(key) : key);
    value = valueAt(value, [key]);
    i += key.split('.').length;
  }
  return steps;
}

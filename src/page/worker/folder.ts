import { nearestWord, refuse } from '../../core/index.js';

/** The maker's files by name, as they would lie in one folder on a disk: "shop.yaml", "garden-stall/prices.csv". */
export type Folder = Readonly<Record<string, string>>;

/** A file named in a file is looked for beside it. */
export function beside(file: string, name: string): string {
  const steps = [...file.split('/').slice(0, -1), ...name.split(/[\\/]/)];
  const path: string[] = [];
  for (const step of steps) {
    if (step === '..') path.pop();
    else if (step !== '.' && step !== '') path.push(step);
  }
  return path.join('/');
}

/** A file's text. Throws InputProblems `file-missing` with the nearest name, or `file-empty`. */
export function textOf(folder: Folder, file: string): string {
  const text = Object.hasOwn(folder, file) ? folder[file] : undefined;
  if (text === undefined) {
    const nearest = nearestWord(file, Object.keys(folder));
    return refuse({ code: 'file-missing', where: { file }, ...(nearest === undefined ? {} : { nearest }) });
  }
  return text.trim() === '' ? refuse({ code: 'file-empty', where: { file } }) : text;
}

/** A shop's file, and those it names that a blend depends on: its price list, its own materials, what its pours have taught. */
export function filesOfShop(file: string, data: unknown): readonly string[] {
  const { prices, materials, learned } = (data ?? {}) as Readonly<Record<string, unknown>>;
  const named = [prices, learned, ...(Array.isArray(materials) ? materials : [])];
  return [file, ...named.filter((name) => typeof name === 'string').map((name) => beside(file, name))];
}

/** What files hold, as one text that is another where any of them is. */
export const asOneText = (folder: Folder, files: readonly string[]): string =>
  files.flatMap((file) => [file, folder[file] ?? '']).join('\u0000');

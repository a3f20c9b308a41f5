import { bench, update } from './bench.js';
import type { Drawer } from './drawer.js';
import { withField, withFields } from './edit.js';

/** Changes of the maker's files: in view at once, on the device a moment later. */

let drawer: Drawer | null = null;
const waiting = new Map<string, ReturnType<typeof setTimeout>>();
const KEEP_AFTER = 300;

export const keepIn = (open: Drawer): void => {
  drawer = open;
};

export function writeFile(name: string, text: string): void {
  if (bench.folder[name] === text) return;
  update({ folder: { ...bench.folder, [name]: text } });
  clearTimeout(waiting.get(name));
  waiting.set(
    name,
    setTimeout(() => keepNow(name), KEEP_AFTER),
  );
}

function keepNow(name: string): void {
  clearTimeout(waiting.get(name));
  waiting.delete(name);
  const text = bench.folder[name];
  const done = text === undefined ? drawer?.remove(name) : drawer?.put(name, text);
  done?.catch((error: unknown) => {
    const message = `“${name}” could not be kept on this device (${error instanceof Error ? error.name : String(error)}). Save it as a file.`;
    update({ troubles: [...bench.troubles.filter((t) => t.name !== name), { name, message }] });
  });
}

/** Nothing waits when the page is put away. */
export const keepAll = (): void => {
  for (const name of [...waiting.keys()]) keepNow(name);
};

export function removeFile(name: string): void {
  const { [name]: _gone, ...folder } = bench.folder;
  update({
    folder,
    ...(bench.brief === name ? { brief: null } : {}),
    ...(bench.recipe === name ? { recipe: null } : {}),
    ...(bench.medium === name ? { medium: null } : {}),
    ...(bench.order === name ? { order: null } : {}),
  });
  keepNow(name);
}

export const editField = (file: string, path: readonly (string | number)[], value: unknown): void =>
  writeFile(file, withField(bench.folder[file] ?? '', path, value));

export const editFields = (file: string, changes: Parameters<typeof withFields>[1]): void =>
  writeFile(file, withFields(bench.folder[file] ?? '', changes));

/** A name no file has yet: "my-brief.yaml", "my-brief-2.yaml". */
export function freeName(wanted: string): string {
  if (!Object.hasOwn(bench.folder, wanted)) return wanted;
  const [, stem = wanted, tail = ''] = /^(.*?)(\.[^.]+)?$/.exec(wanted) ?? [];
  for (let n = 2; ; n++) {
    const name = `${stem}-${n}${tail}`;
    if (!Object.hasOwn(bench.folder, name)) return name;
  }
}

/** Hands a file to the browser's downloads. */
export function saveAs(name: string, text: string, type = 'text/plain'): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name.split('/').at(-1) ?? name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

const LARGEST = 5_000_000;

/** A file the maker picked, as text; a plain sentence where it is none. */
export async function readPicked(file: File): Promise<{ text: string } | { trouble: string }> {
  if (file.size > LARGEST) return { trouble: `“${file.name}” is too large (more than 5 MB).` };
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (bytes.length === 0) return { trouble: `“${file.name}” is empty.` };
  if (bytes.includes(0))
    return { trouble: `“${file.name}” is not a text file, or is saved as UTF-16; save it as UTF-8.` };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { trouble: `“${file.name}” is not UTF-8; save it as UTF-8 in your editor.` };
  }
}

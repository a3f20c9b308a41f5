import { type IDBPDatabase, openDB } from 'idb';

/** The maker's files, kept on this device. What cannot be read is told and kept, never wiped. */

const NAME = 'pourwright-bench';
const VERSION = 1;
const FORMAT = 'pourwright.paper/1';
const NEWER =
  'What this device keeps was written by a newer copy of this page. Nothing of it was changed, and nothing is kept now: save your files before you leave.';
const STORES = ['papers', 'aside', 'marks'] as const;

export interface Trouble {
  /** File name, or null when nothing at all can be kept. */
  readonly name: string | null;
  readonly message: string;
}

export interface Drawer {
  readonly papers: Readonly<Record<string, string>>;
  readonly marks: Readonly<Record<string, unknown>>;
  readonly troubles: readonly Trouble[];
  put(name: string, text: string): Promise<void>;
  remove(name: string): Promise<void>;
  mark(name: string, value: unknown): Promise<void>;
  /** Everything that is stored, as it is, for a file. */
  all(): Promise<unknown>;
  /** Records that could not be read and were set aside, with the moment they were, oldest first. */
  aside(): Promise<readonly { readonly name: string; readonly value: unknown }[]>;
  /** Moves a record that cannot be read out of the way, whole. */
  setAside(name: string): Promise<void>;
}

const isPaper = (value: unknown, name: unknown): value is { text: string } =>
  typeof value === 'object' &&
  value !== null &&
  (value as { format?: unknown }).format === FORMAT &&
  (value as { name?: unknown }).name === name &&
  typeof (value as { text?: unknown }).text === 'string';

export async function openDrawer(): Promise<Drawer> {
  let base: IDBPDatabase;
  try {
    base = await openDB(NAME, VERSION, {
      upgrade(db) {
        for (const store of STORES) if (!db.objectStoreNames.contains(store)) db.createObjectStore(store);
      },
    });
  } catch (error) {
    if (reason(error) === 'VersionError') return closed(NEWER, await openDB(NAME).catch(() => undefined));
    return closed(`This browser keeps nothing for this page (${reason(error)}). Save your files before you leave.`);
  }
  const papers: Record<string, string> = {};
  const troubles: Trouble[] = [];
  const broken = new Set<string>();
  const marks: Record<string, unknown> = {};
  try {
    await readAll(base, 'papers', (key, value) => {
      if (isPaper(value, key)) papers[String(key)] = value.text;
      else {
        broken.add(String(key));
        troubles.push({
          name: String(key),
          message: 'What was kept under this name cannot be read. Nothing of it was changed.',
        });
      }
    });
    await readAll(base, 'marks', (key, value) => {
      marks[String(key)] = value;
    });
  } catch (error) {
    // Nothing may be written over what could not be read.
    return closed(`What this page has kept cannot be read (${reason(error)}). Nothing of it was changed.`, base);
  }
  return {
    papers,
    marks,
    troubles,
    async put(name, text) {
      if (broken.has(name)) return;
      await base.put('papers', { format: FORMAT, name, text, saved: new Date().toISOString() }, name);
    },
    async remove(name) {
      if (!broken.has(name)) await base.delete('papers', name);
    },
    mark: async (name, value) => void (await base.put('marks', value, name)),
    all: () => everything(base),
    aside: () => setAsideIn(base),
    async setAside(name) {
      const move = base.transaction(['papers', 'aside'], 'readwrite');
      const value: unknown = await move.objectStore('papers').get(name);
      await move.objectStore('aside').put(value, `${name} ${new Date().toISOString()}`);
      await move.objectStore('papers').delete(name);
      await move.done;
      broken.delete(name);
    },
  };
}

async function readAll(
  base: IDBPDatabase,
  store: string,
  see: (key: IDBValidKey, value: unknown) => void,
): Promise<void> {
  for (const key of await base.getAllKeys(store)) see(key, await base.get(store, key));
}

async function setAsideIn(base: IDBPDatabase): Promise<{ name: string; value: unknown }[]> {
  const held: { name: string; value: unknown }[] = [];
  await readAll(base, 'aside', (key, value) => held.push({ name: String(key), value }));
  return held;
}

async function everything(base: IDBPDatabase): Promise<unknown> {
  const out: Record<string, { key: unknown; value: unknown }[]> = {};
  for (const store of base.objectStoreNames) {
    const keys = await base.getAllKeys(store);
    out[store] = await Promise.all(
      keys.map(async (key) => ({ key, value: await base.get(store, key).catch((e: unknown) => reason(e)) })),
    );
  }
  return { format: 'pourwright.drawer/1', stores: out };
}

const closed = (message: string, base?: IDBPDatabase): Drawer => ({
  papers: {},
  marks: {},
  troubles: [{ name: null, message }],
  put: async () => {},
  remove: async () => {},
  mark: async () => {},
  all: async () => (base === undefined ? null : everything(base)),
  aside: async () => (base?.objectStoreNames.contains('aside') ? setAsideIn(base).catch(() => []) : []),
  setAside: async () => {},
});

const reason = (error: unknown): string => (error instanceof Error ? error.name : String(error));

import { InputProblems, refuse } from '../core/problems/problem.js';
import type { ColumnRule } from '../core/reading/csv.js';
import { headOf } from '../core/reading/csv-head.js';
import { readYaml } from '../core/reading/yaml.js';
import type { TextFile } from './files.js';

interface Content {
  readonly text: string;
  /** Of a YAML file; none where it is something else. */
  readonly fields: Readonly<Record<string, unknown>>;
}

interface FileKind {
  /** With its article. */
  readonly name: string;
  /** A field or columns that only this kind of file has, or undefined. */
  readonly sign: (content: Content) => string | undefined;
  /** Where it belongs. */
  readonly belongs: string;
}

function fieldsOf({ text, file }: TextFile): Content['fields'] {
  try {
    const { data } = readYaml(text, file);
    return typeof data === 'object' && data !== null && !Array.isArray(data) ? (data as Record<string, unknown>) : {};
  } catch (error) {
    if (error instanceof InputProblems) return {};
    throw error;
  }
}

const anyField =
  (...names: readonly string[]): FileKind['sign'] =>
  ({ fields }) =>
    names.find((name) => Object.hasOwn(fields, name));

/** A shop's materials are names of files, a brief's are a choice. */
const rowsOfMaterials: FileKind['sign'] = ({ fields: { materials } }) =>
  Array.isArray(materials) && typeof materials[0] === 'object' ? 'materials' : undefined;

type Rules = Readonly<Record<string, ColumnRule>>;

/** All of these columns. */
const allColumns =
  (rules: Rules, needed: readonly string[]): FileKind['sign'] =>
  ({ text }) => {
    const { columns } = headOf(text, rules);
    return needed.every((name) => columns.includes(name)) ? needed.join(', ') : undefined;
  };

/** The columns that a table of this kind must have. */
const mustHave = (rules: Rules): FileKind['sign'] =>
  allColumns(
    rules,
    Object.keys(rules).filter((name) => rules[name]!.required),
  );

const anyOf =
  (...signs: readonly FileKind['sign'][]): FileKind['sign'] =>
  (content) =>
    signs.map((sign) => sign(content)).find((found) => found !== undefined);

/** Made only when a file does not fit: few commands read all of these. */
async function allKinds() {
  const [{ PRICE_RULES }, { POUR_RULES, tellingColumn }, { SIEVE_RULES }] = await Promise.all([
    import('../core/materials/price-list.js'),
    import('../core/shop/pours-columns.js'),
    import('../core/sieve/read-sieve.js'),
  ]);
  const { pack, price } = PRICE_RULES;
  return {
    recipe: { name: 'a recipe', sign: anyField('amounts'), belongs: 'pourwright assess' },
    order: { name: 'an order', sign: anyField('items', 'due'), belongs: 'pourwright order' },
    medium: { name: 'a medium', sign: anyField('sample', 'mix', 'hardness'), belongs: 'pourwright stand-in' },
    brief: { name: 'a brief', sign: anyField('objective', 'doses'), belongs: 'pourwright propose' },
    shop: {
      name: 'a shop file',
      sign: anyField('currency', 'scale', 'prices', 'labour'),
      belongs: 'pourwright shop check',
    },
    learned: {
      name: 'what pours have taught',
      sign: anyField('together'),
      belongs: 'it in the shop file, as learned: …',
    },
    materials: { name: 'a materials file', sign: rowsOfMaterials, belongs: 'pourwright shelf --check' },
    sieve: {
      name: 'a sieve analysis',
      sign: anyOf(anyField('sieves'), mustHave(SIEVE_RULES)),
      belongs: 'pourwright sieve',
    },
    // One without its materials is one too: that is its mistake to tell.
    prices: {
      name: 'a price list',
      sign: anyOf(mustHave(PRICE_RULES), allColumns({ pack, price }, ['pack', 'price'])),
      belongs: 'it with --prices',
    },
    pours: {
      name: 'a record of pours',
      sign: ({ text }) => tellingColumn(headOf(text, POUR_RULES)),
      belongs: 'pourwright pours show --file',
    },
  } satisfies Readonly<Record<string, FileKind>>;
}

export type KindName = keyof Awaited<ReturnType<typeof allKinds>>;

/** What `read` makes of a file; where it cannot, and the file is of another kind than those asked for, that is said instead. */
export async function readAs<T>(asked: readonly KindName[], file: TextFile, read: () => T): Promise<Awaited<T>> {
  try {
    return await read();
  } catch (error) {
    if (!(error instanceof InputProblems)) throw error;
    const kinds: Readonly<Record<KindName, FileKind>> = await allKinds();
    const content = { text: file.text, fields: fieldsOf(file) };
    const signs = new Map(Object.values(kinds).map((kind) => [kind, kind.sign(content)]));
    const wanted = asked.map((name) => kinds[name]);
    const [other] = [...signs].filter(([kind, sign]) => sign !== undefined && !wanted.includes(kind));
    if (other === undefined || wanted.some((kind) => signs.get(kind) !== undefined)) throw error;
    const [kind, sign] = other;
    refuse({
      code: 'file-unreadable',
      where: { file: file.file },
      found: kind.name,
      expected: wanted.map(({ name }) => name).join(' or '),
      hint: `It has “${sign}”: try ${kind.belongs}`,
    });
  }
}

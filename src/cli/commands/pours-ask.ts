import type { Shop } from '../../core/brief/shelf.js';
import { InputProblems } from '../../core/problems/problem.js';
import { explain } from '../../core/problems/words.js';
import type { PourColumn } from '../../core/shop/pours-columns.js';
import type { Pour } from '../../core/shop/pours-record.js';
import type { Io } from '../io.js';

type Said = Readonly<Partial<Record<PourColumn, string>>>;

interface Question {
  readonly column: PourColumn;
  readonly text: string;
  /** Only for a pour that is not in the record yet. */
  readonly once?: boolean;
}

const QUESTIONS: readonly Question[] = [
  { column: 'date', text: 'Date', once: true },
  { column: 'brief', text: 'Brief or recipe file (nothing: type the blend next)', once: true },
  { column: 'blend', text: 'Blend, such as casting-plaster 300; water 180 (nothing: as the file says)', once: true },
  { column: 'batch g', text: 'Mixed in all, g', once: true },
  { column: 'pieces', text: 'Pieces it was poured into', once: true },
  { column: 'room C', text: 'Room, °C', once: true },
  { column: 'room %', text: 'Room, % humidity', once: true },
  { column: 'set min', text: 'Minutes until it stopped moving' },
  { column: 'demould min', text: 'Minutes until it could be taken out' },
  { column: 'weights', text: 'Weights of one piece since the water, such as 1 h: 285; 3 d: 249' },
  { column: 'flow', text: 'How it flowed (stiff, thick, pours, thin, bleeds)', once: true },
  { column: 'bubbles', text: 'Bubbles (none, few, many)' },
  { column: 'cracks', text: 'Cracks (none, fine, through)' },
  { column: 'note', text: 'Note' },
];

export interface AskOptions {
  readonly flags: Said;
  /** The pour in the record that is being added to. */
  readonly earlier: Pour | undefined;
  readonly shop: Shop;
  /** Reads what was said, and the file that is named; throws InputProblems. */
  readonly check: (said: Said) => Promise<unknown>;
}

/** Asks for each column until it can be read; an empty answer leaves it empty or takes what stands in brackets. Null: stopped. */
export async function askForPour(io: Io, { flags, earlier, shop, check }: AskOptions): Promise<Said | null> {
  const usual: Said = {
    date: io.today(),
    'room C': String(shop.temperature),
    'room %': String(Math.round(100 * shop.humidity)),
  };
  const said: Partial<Record<PourColumn, string>> = { ...flags };
  io.out(
    earlier === undefined ? 'A new pour. Enter alone leaves a line empty; Ctrl-D stops.\n' : `Pour ${earlier.name}.\n`,
  );
  for (const { column, text, once } of QUESTIONS) {
    if (once === true && earlier !== undefined) continue;
    for (;;) {
      const given = usual[column] === undefined ? '' : ` [${usual[column]}]`;
      const answer = await io.ask(`${text}${given}: `);
      if (answer === null) return null;
      const value = answer.trim() === '' ? (usual[column] ?? '') : answer.trim();
      if (value === '') break;
      try {
        await check({ [column]: value });
        said[column] = value;
        break;
      } catch (error) {
        if (!(error instanceof InputProblems)) throw error;
        for (const problem of error.problems) {
          // The maker is at the very question: where it stands needs no saying, but for a line of a file that was named.
          const { where: _where, ...plain } = problem;
          io.out(`  ${explain(column === 'brief' ? problem : plain)}\n`);
        }
      }
    }
  }
  const empty = Object.keys(said).every((column) => column === 'pour' || column in usual);
  return empty ? null : said;
}

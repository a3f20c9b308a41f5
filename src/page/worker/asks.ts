import type {
  CardResult,
  FitResult,
  Near,
  Objective,
  OrderResult,
  PourRow,
  PoursResult,
  PriceResult,
  ReasonsResult,
  StandInResult,
  UnitSystem,
  WaysOutResult,
} from '../../core/index.js';
import type { Folder } from './folder.js';
import type { FrontierTold } from './frontier.js';
import type { Notice } from './notice.js';
import type { Others } from './others.js';
import type { ShelfTold } from './shelf-told.js';
import type { Told } from './told.js';

/** What the page asks a worker, and what it gets. */
export interface Asks {
  /** A quick answer near the last blend; null: ask for the whole proposal. */
  near: { ask: { file: string; near: Near }; answer: Told | null };
  /** The blend of a brief or a recipe, as `propose` and `assess` tell it. */
  blend: { ask: { file: string }; answer: Told };
  price: {
    ask: { files: readonly string[]; at?: string; run?: number };
    answer: { result: PriceResult; system: UnitSystem };
  };
  card: {
    ask: { file: string; pieces?: number; bowl?: string; paper: 'a4' | 'letter' };
    answer: { card: CardResult; html: string; system: UnitSystem };
  };
  order: { ask: { file: string }; answer: { result: OrderResult; system: UnitSystem } };
  pours: { ask: { file: string; shop: string | null }; answer: PoursResult };
  /** The record with one row more. */
  pour: { ask: { file: string; row: PourRow }; answer: { text: string; name: string } };
  /** What the pours teach; `learned` is the file that `pours fit` writes. */
  fit: {
    ask: { file: string; shop: string | null; today: string };
    answer: { result: FitResult; learned: string; system: UnitSystem };
  };
  frontier: { ask: { file: string; against: Objective }; answer: FrontierTold };
  /** What would let a brief be met that nothing meets; `system` is the nearest blend's. */
  waysOut: { ask: { file: string; system: string }; answer: WaysOutResult | null };
  /** A blend that meets all targets at once with this chance, or the surest there is. */
  sure: { ask: { file: string; chance: string }; answer: Told };
  /** What holds the blend back; null: no blend meets the brief. */
  reasons: { ask: { file: string }; answer: ReasonsResult | null };
  others: { ask: { file: string }; answer: Others };
  standIn: { ask: { file: string }; answer: { result: StandInResult; system: UnitSystem } };
  shelf: { ask: { shop: string | null }; answer: ShelfTold };
}

export type AskKind = keyof Asks;

export interface Request<K extends AskKind = AskKind> {
  readonly id: number;
  readonly kind: K;
  readonly folder: Folder;
  readonly ask: Asks[K]['ask'];
}

/** Bad input is an answer too: the same problems the command line prints. */
export type Answer<T> =
  | { readonly ok: true; readonly value: T; readonly took: number }
  | { readonly ok: false; readonly problems: readonly Notice[]; readonly took: number };

export interface Response {
  readonly id: number;
  readonly answer: Answer<unknown>;
}

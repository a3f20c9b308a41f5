import {
  cardHtml,
  cardResult,
  inUnits,
  packsOnSale,
  parseAmount,
  parseMoney,
  priceResult,
  proposalResult,
  proposeNear,
  waysOutResult,
} from '../../core/index.js';
import type { AskKind, Asks } from './asks.js';
import type { Folder } from './folder.js';
import { frontierOf } from './frontier.js';
import { opener, type ShippedTable } from './open.js';
import { orderOf } from './order.js';
import { othersOf } from './others.js';
import { pourAdded, poursTaught, shownPours } from './pours.js';
import { reasonsOf } from './reasons.js';
import { shelfTold } from './shelf-told.js';
import { standInOf } from './stand-in.js';
import { sureOf } from './sure.js';
import { toldOf, toldOfProposal } from './told.js';

export type Answers = { readonly [K in AskKind]: (folder: Folder, ask: Asks[K]['ask']) => Asks[K]['answer'] };

/** What the page shows is worked out here, by the same core as the command line. */
export function answers(shipped: ShippedTable): Answers {
  const open = opener(shipped);
  return {
    near(folder, { file, near }) {
      const read = open.brief(folder, file);
      if (read.kind === 'recipe') return null;
      const { brief, shelf, invented } = read;
      const proposal = proposeNear(brief.question, near);
      if (proposal === null) return null;
      const result = proposalResult(brief, proposal, shelf, invented);
      return toldOfProposal(file, brief.question, proposal, result, shelf.shop.units, true);
    },
    blend(folder, { file }) {
      const { mixed, open: opened } = open.mixed(folder, file);
      return toldOf(file, mixed, opened.shelf.shop.units, false);
    },
    price(folder, { files, at, run }) {
      const opened = files.map((file) => open.mixed(folder, file));
      const { shelf, prices } = opened[0]!.open;
      const currency = shelf.shop.currency;
      const priced = priceResult(
        opened.map((o) => o.mixed),
        shelf.shop,
        prices === null ? new Map() : packsOnSale(prices),
        {
          ...(at === undefined
            ? {}
            : { at: parseMoney(at, { path: 'at' }, currency === null ? {} : { currency }).amount }),
          ...(run === undefined ? {} : { run }),
          once: [],
          files,
        },
      );
      return { result: inUnits(priced, shelf.shop.units), system: shelf.shop.units };
    },
    card(folder, { file, pieces, bowl, paper }) {
      const { mixed, open: opened } = open.mixed(folder, file, pieces);
      const { shop } = opened.shelf;
      const size = bowl === undefined ? {} : { bowl: parseAmount(bowl, { path: 'bowl' }, { positive: true }) };
      const card = cardResult(mixed, shop, size);
      return {
        card: inUnits(card, shop.units),
        html: cardHtml(card, { paper, system: shop.units }),
        system: shop.units,
      };
    },
    order: (folder, { file }) => orderOf(open, folder, file),
    pours: (folder, { file, shop }) => shownPours(open, folder, file, shop),
    pour: (folder, { file, row }) => pourAdded(folder[file] ?? '', file, row),
    fit: (folder, { file, shop, today }) => poursTaught(open, folder, file, shop, today),
    frontier: (folder, { file, against }) => frontierOf(open, folder, file, against),
    waysOut(folder, { file, system }) {
      const read = open.brief(folder, file);
      return read.kind === 'recipe' ? null : waysOutResult(read.brief, read.shelf, system);
    },
    sure: (folder, { file, chance }) => sureOf(open, folder, file, chance),
    reasons: (folder, { file }) => reasonsOf(open, folder, file),
    others: (folder, { file }) => othersOf(open, folder, file),
    standIn: (folder, { file }) => standInOf(open, folder, file),
    shelf: (folder, { shop }) => shelfTold(open.shop(folder, shop)),
  };
}

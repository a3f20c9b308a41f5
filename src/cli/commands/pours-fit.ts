import { dirname, relative } from 'node:path';
import { Document, visit } from 'yaml';
import { type Problem, refuse } from '../../core/problems/problem.js';
import { explain } from '../../core/problems/words.js';
import { fitResult } from '../../core/report/pours-result.js';
import { type LearnedFile, learnedFile } from '../../core/shop/learned.js';
import { contradicting, fitFigures, type Measured } from '../../core/shop/pours-fit.js';
import { measuredPour, wasteFigure } from '../../core/shop/pours-measured.js';
import type { Pour } from '../../core/shop/pours-record.js';
import { writeText } from '../files.js';
import { beside } from '../load.js';
import { renderFit } from '../render/pours-fit.js';
import type { ExitCode } from '../run.js';
import type { Call } from '../verb.js';
import { joined, openPourShop, openRecord, recordFile, sourceReader } from './pours-open.js';
import { printInUnits, printJson } from './view.js';

const USUAL_LEARNED = 'learned.yaml';

/** Fits the shop's figures to its pours, always from the table's own ranges, so that no pour counts twice. */
export async function poursFit(call: Call): Promise<ExitCode> {
  const { open, shopFile } = await openPourShop(call, false);
  const { shelf, shop } = open;
  const { file, namedIn } = recordFile(call, open);
  const { pours, problems } = await openRecord(call, file, namedIn);
  const sourceOf = sourceReader(call, file, shelf);
  const measured: Measured[] = [];
  const used: Pour[] = [];
  const left: Left[] = [];
  for (const pour of pours) {
    const found = await joined(pour, sourceOf, shelf);
    if ('problems' in found) {
      left.push({ pour: pour.name, why: words(found.problems), cause: words(found.problems.map(withoutLine)) });
      continue;
    }
    const one = measuredPour(found.known, shop.scale.step, wasteFigure(shop.waste));
    if (one === null) left.push({ pour: pour.name, why: NOTHING, cause: NOTHING });
    else {
      measured.push(one);
      used.push(pour);
    }
  }
  if (measured.length === 0) {
    refuse({
      code: 'field-missing',
      where: { file },
      expected: 'a pour with its blend and a weight, a set time or a demoulding time',
      hint: whyLeft(left),
    });
  }
  const fit = fitFigures(measured);
  const from = { file, pours: used.length, fitted: call.io.today() };
  const target = (call.options.out as string | undefined) ?? open.learned ?? besideShop(shopFile);
  const written = call.options.dryRun === true || contradicting(fit).length > 0 ? null : target;
  if (written !== null) writeText(written, yamlOf(learnedFile(fit, shelf, from)));
  const named = written !== null && written === open.learned;
  const result = fitResult(fit, shelf, {
    file,
    used,
    left: left.map(({ pour, why }) => ({ pour, why })),
    written,
    named,
    problems,
  });
  const line = `learned: ${relative(dirname(shopFile ?? ''), target)}`;
  if (call.options.json === true) printJson(call.io, result);
  else printInUnits(call, shop, result, (page, told, view) => renderFit(page, told, view.wording.system, line));
  return result.trusted ? 0 : 1;
}

/** A pour that teaches nothing. */
interface Left {
  readonly pour: string;
  readonly why: string;
  /** The same without the line it was found in, by which pours of one cause are told together. */
  readonly cause: string;
}

const NOTHING = 'nothing in it can be compared';
const MOST_NAMED = 3;

const words = (problems: readonly Problem[]): string => problems.map(explain).join(' ');

const withoutLine = ({ where, ...problem }: Problem): Problem =>
  where?.path === undefined ? problem : { ...problem, where: { path: where.path } };

/** Each cause once, with the pours that have it, or how many they are. */
function whyLeft(left: readonly Left[]): string {
  const alike = new Map<string, Left[]>();
  for (const one of left) alike.set(one.cause, [...(alike.get(one.cause) ?? []), one]);
  return [...alike]
    .map(([cause, [first, ...others]]) => {
      if (others.length === 0) return `pour ${first!.pour}: ${first!.why}`;
      const names = [first!, ...others].slice(0, MOST_NAMED).map((l) => l.pour);
      const more = others.length >= MOST_NAMED ? `, … (${others.length + 1} pours)` : '';
      return `pours ${names.join(', ')}${more}: ${cause}`;
    })
    .join(' ');
}

const besideShop = (shopFile: string | null): string =>
  shopFile === null ? USUAL_LEARNED : beside(shopFile, USUAL_LEARNED);

const HEAD = `# Written by "pourwright pours fit": what your pours have taught, laid over the table's own figures.
# It is written anew by the next fit. Delete it, or take learned: out of the shop file, and the table counts again.
`;

/** Each figure and each row of correlations on one line. */
function yamlOf(learned: LearnedFile): string {
  const document = new Document(learned);
  visit(document, {
    Collection(_key, node, path) {
      // Document, top map, pair, figures or together: what lies inside those is small.
      if (path.length >= 4) node.flow = true;
    },
  });
  return `${HEAD}${document.toString({ lineWidth: 0 })}`;
}

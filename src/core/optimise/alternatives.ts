import { type World, worldOf } from '../blend/world.js';
import { byBest } from './miss.js';
import { AIMS, type Aim } from './objective.js';
import { type Proposal, type ProposeOptions, proposeFrom } from './propose.js';
import type { Question } from './question.js';
import { settle } from './settle.js';
import { type SettledSystems, type SystemAnswer, settleSystems } from './settle-systems.js';
import { supported } from './support.js';
import { openSystems } from './systems.js';

/** Another proposal, of other ingredients. */
export interface Alternative {
  readonly proposal: Proposal;
  /** Materials that count in the first proposal and are not in this one, and the other way round. */
  readonly without: readonly string[];
  readonly instead: readonly string[];
}

export interface Alternatives {
  readonly first: Proposal;
  /** Best first; fewer than asked where the shelf gives no more that meet the brief. */
  readonly others: readonly Alternative[];
}

/** Settled blends looked at for each alternative asked for, at most. */
const LOOKS = 12;
/** Share of the mass from which an ingredient counts, and below which it is as good as not there. */
const COUNTS = 0.02;
const TRACE = 0.004;

/**
 * The best proposal and others that differ from it and from each other in their ingredients, not in decimals: each lacks
 * an ingredient that counts in the other, or has one that the other lacks.
 *
 * First come the best blends of the other binder systems, then of the same one: best first search over blends made to do
 * without an ingredient that counts in a better blend (after Lawler 1972, k best solutions, from memory; barring one
 * ingredient after the other cuts off each set and all that contain it). All meet the brief.
 *
 * @throws InputProblems as `propose`.
 */
export function alternatives(question: Question, count: number, options: ProposeOptions = {}): Alternatives {
  const aim = AIMS[question.objective];
  const world = worldOf(question);
  const settled = settleSystems(question, world, aim);
  const first = proposeFrom(question, world, settled, options);
  const best = settled.ranked[0]!;
  if (count < 2 || !best.answer.feasible) return { first, others: [] };

  const chosen: Node[] = [{ ...best, barred: new Set() }];
  const elsewhere = otherSystems(question, world, settled, aim);
  for (const node of elsewhere) {
    if (chosen.length < count && chosen.every((c) => differ(world, c, node))) chosen.push(node);
  }
  within(question, world, aim, chosen, count);

  const others = chosen
    .slice(1)
    .sort(byBest(aim, ({ answer }) => answer))
    .map((node): Alternative => {
      const reports = settled.reports.map((r) => {
        if (r.system === node.system.id)
          return { ...r, outcome: 'chosen' as const, value: node.answer.value, why: null };
        return r.outcome === 'chosen' ? { ...r, outcome: 'possible' as const } : r;
      });
      const proposal = proposeFrom(question, world, { ranked: [node], reports }, options);
      const [a, b] = [chosen[0]!, node];
      return { proposal, without: lacking(world, b, a), instead: lacking(world, a, b) };
    });
  return { first, others: others.filter((o) => o.proposal.status === 'met') };
}

/** A settled blend that was made to do without some materials. */
interface Node extends SystemAnswer {
  readonly barred: ReadonlySet<number>;
}

function settledNode(
  question: Question,
  world: World,
  system: Node['system'],
  aim: Aim,
  barred: ReadonlySet<number>,
): Node | null {
  const bounds = world.materials.map((_m, i) => ({ lower: 0, upper: barred.has(i) ? 0 : Number.POSITIVE_INFINITY }));
  const free = settle(question, world, system, { aim, bounds });
  if (free === null || !free.feasible) return null;
  const kept = supported(question, world, system, free, aim);
  return kept === null || !kept.answer.feasible ? null : { system, barred, ...kept };
}

function otherSystems(question: Question, world: World, settled: SettledSystems, aim: Aim): Node[] {
  const none = new Set<number>();
  const nodes = openSystems(question, world).flatMap((system): Node[] => {
    if (system === settled.ranked[0]!.system) return [];
    const known = settled.ranked.find((r) => r.system === system);
    if (known !== undefined) return known.answer.feasible ? [{ ...known, barred: none }] : [];
    const node = settledNode(question, world, system, aim, none);
    return node === null ? [] : [node];
  });
  return nodes.sort(byBest(aim, ({ answer }) => answer));
}

/** Adds blends of the chosen ones' systems until there are enough or nothing new is found. */
function within(question: Question, world: World, aim: Aim, chosen: Node[], count: number): void {
  const open: Node[] = [];
  const seen = new Set<string>();
  let looks = LOOKS * count;
  const expand = (node: Node): void => {
    for (const material of counting(world, node)) {
      const barred = new Set([...node.barred, material]);
      const key = `${node.system.id} ${[...barred].sort((a, b) => a - b).join(' ')}`;
      if (seen.has(key) || looks <= 0) continue;
      seen.add(key);
      looks--;
      const child = settledNode(question, world, node.system, aim, barred);
      if (child !== null) open.push(child);
    }
  };
  for (const node of [...chosen]) if (chosen.length < count) expand(node);
  while (chosen.length < count && open.length > 0) {
    open.sort(byBest(aim, ({ answer }) => answer));
    const node = open.shift()!;
    if (chosen.every((c) => differ(world, c, node))) chosen.push(node);
    if (chosen.length < count) expand(node);
  }
}

const shareIn = ({ answer }: Node, i: number): number => answer.grams[i]! / answer.grams.reduce((s, g) => s + g, 0);

/** Ingredients that count; water always does, and is never in question. */
const counting = (world: World, node: Node): number[] =>
  world.materials.flatMap((m, i) => (m.kind !== 'water' && shareIn(node, i) >= COUNTS ? [i] : []));

/** Ids of what counts in b and is as good as not there in a. */
const lacking = (world: World, a: Node, b: Node): string[] =>
  counting(world, b).flatMap((i) => (shareIn(a, i) < TRACE ? [world.materials[i]!.id] : []));

const differ = (world: World, a: Node, b: Node): boolean =>
  lacking(world, a, b).length > 0 || lacking(world, b, a).length > 0;

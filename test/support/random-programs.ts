import type { Column, LinearProgram, Row } from '../../src/core/optimise/lp/types.js';

/**
 * Seeded random programs for testing the solver. All figures are invented; they only have the shape and the size of
 * the real thing (materials with density, price, water demand; rows such as a proposal's), see facts/solver.md §2.
 */
export interface Random {
  /** Uniform in [from, to). */
  between(from: number, to: number): number;
  /** Whole number in [from, to]. */
  whole(from: number, to: number): number;
  chance(probability: number): boolean;
  pick<T>(from: readonly T[]): T;
}

export function seededRandom(seed: number): Random {
  let state = (Math.imul(seed, 2654435761) ^ 0x9e3779b9) >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  for (let i = 0; i < 5; i++) next();
  return {
    between: (from, to) => from + (to - from) * next(),
    whole: (from, to) => from + Math.floor((to - from + 1) * next()),
    chance: (probability) => next() < probability,
    pick: (from) => from[Math.floor(next() * from.length)]!,
  };
}

type Kind = 'water' | 'binder' | 'pozzolan' | 'sand' | 'light' | 'pigment' | 'dose' | 'fibre' | 'filler';

interface Material {
  readonly kind: Kind;
  readonly density: number;
  readonly price: number;
  readonly demand: number;
  readonly logSet: number;
  readonly strength: number;
  readonly doseMax: number;
}

const KINDS: readonly Kind[] = ['water', 'binder', 'binder', 'sand', 'pigment', 'dose', 'light', 'pozzolan'];
const MORE: readonly Kind[] = ['binder', 'pozzolan', 'sand', 'light', 'pigment', 'dose', 'fibre', 'filler', 'sand'];

const DENSITY: Record<Kind, readonly [number, number]> = {
  water: [0.998, 0.998],
  binder: [2.3, 3.15],
  pozzolan: [2.1, 2.9],
  sand: [2.55, 2.75],
  light: [0.1, 1.2],
  pigment: [3.8, 5.2],
  dose: [1.0, 2.2],
  fibre: [0.9, 2.7],
  filler: [2.6, 2.9],
};

const PRICE: Record<Kind, readonly [number, number]> = {
  water: [0.000002, 0.000004],
  binder: [0.0002, 0.004],
  pozzolan: [0.0003, 0.005],
  sand: [0.00005, 0.001],
  light: [0.001, 0.02],
  pigment: [0.005, 0.05],
  dose: [0.005, 0.06],
  fibre: [0.01, 0.05],
  filler: [0.0001, 0.002],
};

function material(kind: Kind, random: Random): Material {
  const powder = kind === 'binder' || kind === 'pozzolan' || kind === 'filler' || kind === 'pigment';
  return {
    kind,
    density: random.between(...DENSITY[kind]),
    price: random.between(...PRICE[kind]),
    demand: powder ? random.between(0.2, 0.6) : kind === 'water' || kind === 'dose' ? 0 : random.between(0.03, 0.9),
    logSet: random.between(Math.log(8), Math.log(400)),
    strength: random.between(4, 60),
    doseMax: random.between(0.002, 0.03),
  };
}

export interface BlendShape {
  readonly materials: readonly Material[];
  readonly program: LinearProgram;
  readonly volume: number;
}

/** The unit the amounts and volumes are stated in: the same blend as g with mL, kg with L, or kg with m³. */
export type UnitForm = 'g' | 'kg' | 'si';

/**
 * A proposal-like linear program over `size` materials (default 8 to 60). A hidden recipe is drawn first and most
 * rows are laid around it, a quarter of them exactly active at it; a fifth of the programs hold duplicate
 * materials; half are tightened, which makes many of those infeasible.
 */
export function blendProgram(seed: number, options: { size?: number; unit?: UnitForm } = {}): BlendShape {
  const random = seededRandom(seed);
  const size = options.size ?? random.whole(8, 60);
  const materials: Material[] = [];
  for (let j = 0; j < size; j++) materials.push(material(KINDS[j] ?? random.pick(MORE), random));
  if (random.chance(0.2)) {
    for (let copies = random.whole(1, 3); copies > 0; copies--) {
      materials[random.whole(2, size - 1)] = { ...materials[random.whole(1, size - 1)]! };
    }
  }
  const massUnit = options.unit === undefined || options.unit === 'g' ? 1 : 1e-3;
  const volumeUnit = options.unit === undefined || options.unit === 'g' ? 1 : options.unit === 'kg' ? 1e-3 : 1e-6;

  const volume = random.between(30, 600);
  const hidden = hiddenRecipe(materials, volume, random);
  const tightened = random.chance(0.55);
  const rows: Row[] = [];
  const at = (coefficients: readonly number[]): number => coefficients.reduce((sum, c, j) => sum + c * hidden[j]!, 0);
  /** Lays a row's side at the hidden recipe (active), a little beyond it, or (tightened) a little inside of it. */
  const lay = (value: number, away: number, spread: number): number => {
    if (random.chance(0.25)) return value;
    const inside = tightened && random.chance(0.2);
    return value + (inside ? -0.3 : 1) * away * spread * random.between(0.05, 1);
  };
  const is = (...kinds: Kind[]) => materials.map((m) => kinds.includes(m.kind));
  const binders = is('binder', 'pozzolan');
  const volumes = materials.map((m) => m.density ** -1);

  rows.push({ name: 'volume', coefficients: volumes, low: volume, high: volume });
  const ratio = (name: string, over: readonly boolean[], of: readonly boolean[], side: 'low' | 'high'): void => {
    const share = at(over.map(Number)) / Math.max(at(of.map(Number)), 1e-9);
    const limit = Math.max(0, lay(share, side === 'high' ? 1 : -1, 0.3 * share + 0.01));
    const coefficients = over.map((o, j) => Number(o) - limit * Number(of[j]));
    rows.push({ name, coefficients, [side]: 0, scale: volume });
  };
  ratio('water to binder, most', is('water'), binders, 'high');
  ratio('water to binder, least', is('water'), binders, 'low');
  const flow = (limit: number) => materials.map((m) => Number(m.kind === 'water') - limit * m.demand);
  const flowAt = at(is('water').map(Number)) / at(materials.map((m) => m.demand));
  rows.push({ name: 'flow, least', coefficients: flow(lay(flowAt, -1, 0.2)), low: 0, scale: volume });
  rows.push({ name: 'flow, most', coefficients: flow(lay(flowAt, 1, 0.2)), high: 0, scale: volume });
  const prices = materials.map((m) => m.price);
  if (random.chance(0.6)) rows.push({ name: 'budget', coefficients: prices, high: lay(at(prices), 1, at(prices)) });
  const dry = materials.map((m) => (m.kind === 'water' ? 0 : m.kind === 'binder' ? 1.18 : 1));
  const dryAt = at(dry);
  rows.push({
    name: 'dry weight',
    coefficients: dry,
    low: lay(dryAt, -1, 0.2 * dryAt),
    high: lay(dryAt, 1, 0.2 * dryAt),
  });
  const setAt = at(materials.map((m, j) => (binders[j] ? m.logSet : 0))) / at(binders.map(Number));
  const set = (limit: number) =>
    materials.map((m, j) => (binders[j] ? m.logSet - limit : m.kind === 'dose' ? 20 * (m.logSet - 4) : 0));
  rows.push({ name: 'set, latest', coefficients: set(lay(setAt, 1, 1)), high: 0, scale: volume });
  if (random.chance(0.7))
    rows.push({ name: 'set, soonest', coefficients: set(lay(setAt, -1, 1)), low: 0, scale: volume });
  const pigment = materials.map((m, j) => Number(m.kind === 'pigment') - 0.05 * Number(binders[j]));
  rows.push(
    random.chance(0.5)
      ? { name: 'pigment', coefficients: pigment, low: 0, high: 0, scale: volume }
      : { name: 'pigment', coefficients: pigment, high: 0, scale: volume },
  );
  if (random.chance(0.7)) ratio('sand to binder, most', is('sand'), binders, 'high');
  if (random.chance(0.5)) ratio('sand to binder, least', is('sand'), binders, 'low');
  if (random.chance(0.6)) ratio('pozzolan share', is('pozzolan'), binders, 'high');
  materials.forEach((m, j) => {
    if (m.kind !== 'dose') return;
    const coefficients = materials.map((_, k) => Number(k === j) - m.doseMax * Number(binders[k]));
    rows.push({ name: `dose ${j}`, coefficients, high: 0, scale: volume });
  });
  if (random.chance(0.6)) {
    const coefficients = materials.map((m, j) => (m.kind === 'light' ? volumes[j]! : 0));
    rows.push({ name: 'light volume', coefficients, high: lay(at(coefficients), 1, 0.2 * volume) });
  }
  if (random.chance(0.5))
    ratio(
      'fibre share',
      is('fibre'),
      materials.map(() => true),
      'high',
    );
  if (random.chance(0.5)) ratio('filler share', is('filler'), binders, 'high');
  if (random.chance(0.6)) {
    const strengthAt = at(materials.map((m, j) => (binders[j] ? m.strength : 0))) / at(binders.map(Number));
    const limit = lay(strengthAt, -1, 0.5 * strengthAt);
    const coefficients = materials.map((m, j) => (binders[j] ? m.strength - limit : 0));
    rows.push({ name: 'strength', coefficients, low: 0, scale: 10 * volume });
  }

  const aim = random.pick(['cost', 'mass', 'strength'] as const);
  const objective =
    aim === 'cost' ? prices : aim === 'mass' ? dry : materials.map((m, j) => (binders[j] ? m.strength / volume : 0));
  const columns = materials.map((m, j): Column => {
    const stock = random.chance(0.1) ? hidden[j]! * random.between(1, 3) + volume * 0.02 : Number.POSITIVE_INFINITY;
    return { name: `${m.kind} ${j}`, upper: stock * massUnit };
  });
  const sense = aim === 'strength' ? 'max' : 'min';
  const program = inUnits({ columns, rows, sense, objective }, massUnit, volumeUnit);
  return { materials, program, volume: volume * volumeUnit };
}

function hiddenRecipe(materials: readonly Material[], volume: number, random: Random): number[] {
  const weight: Record<Kind, number> = {
    water: 0.5,
    binder: 1,
    pozzolan: 0.2,
    sand: 1,
    light: 0.1,
    pigment: 0.05,
    dose: 0.004,
    fibre: 0.01,
    filler: 0.2,
  };
  const raw = materials.map((m) =>
    m.kind === 'water' || random.chance(0.4) ? weight[m.kind] * random.between(0.2, 1) : 0,
  );
  raw[1] = random.between(0.3, 1);
  const filled = raw.reduce((sum, w, j) => sum + w / materials[j]!.density, 0);
  return raw.map((w) => (w * volume) / filled);
}

/** Restates a program in g with mL in another pair of units: amounts and right sides change, ratio rows do not. */
function inUnits(program: LinearProgram, massUnit: number, volumeUnit: number): LinearProgram {
  if (massUnit === 1) return program;
  const rows = program.rows.map((row): Row => {
    const isVolume = row.name.includes('volume');
    const isMoney = row.name === 'budget';
    const rightSide = isVolume ? volumeUnit : isMoney ? 1 : massUnit;
    const coefficient = rightSide / massUnit;
    return {
      ...row,
      coefficients: row.coefficients.map((c) => c * coefficient),
      ...(row.low === undefined ? {} : { low: row.low * rightSide }),
      ...(row.high === undefined ? {} : { high: row.high * rightSide }),
      ...(row.scale === undefined ? {} : { scale: row.scale * rightSide }),
    };
  });
  return { ...program, rows, objective: program.objective.map((c) => c / massUnit) };
}

/**
 * Any small program: whole-number data, so many ties; equalities, ranges, free and negative columns, redundant and
 * contradicting rows, open directions.
 */
export function anyProgram(seed: number): LinearProgram {
  const random = seededRandom(seed);
  const n = random.whole(1, 12);
  const m = random.whole(1, 12);
  const fractional = random.chance(0.3);
  const number = (most: number): number => (fractional ? random.between(-most, most) : random.whole(-most, most));
  const density = random.between(0.3, 1);
  const columns = Array.from({ length: n }, (_, j): Column => {
    const roll = random.between(0, 1);
    if (roll < 0.6) return { name: `x${j}` };
    if (roll < 0.7) return { name: `x${j}`, lower: Number.NEGATIVE_INFINITY };
    if (roll < 0.8) return { name: `x${j}`, lower: Number.NEGATIVE_INFINITY, upper: number(10) };
    const lower = number(10);
    return { name: `x${j}`, lower, upper: lower + random.whole(0, 10) };
  });
  const inside = columns.map((c) => {
    const from = Math.max(c.lower ?? 0, -20);
    const to = Math.max(from, Math.min(c.upper ?? 20, 20));
    return fractional
      ? random.between(from, to)
      : random.whole(Math.ceil(from), Math.max(Math.ceil(from), Math.floor(to)));
  });
  const aimAtFeasible = random.chance(0.75);
  const rows = Array.from({ length: m }, (_, i): Row => {
    const coefficients = columns.map(() => (random.chance(density) ? number(9) : 0));
    const value = coefficients.reduce((sum, c, j) => sum + c * inside[j]!, 0);
    const target = aimAtFeasible ? value : number(30);
    const roll = random.between(0, 1);
    const name = `r${i}`;
    if (roll < 0.2) return { name, coefficients, low: target, high: target };
    if (roll < 0.55) return { name, coefficients, high: target + random.whole(0, 5) };
    if (roll < 0.9) return { name, coefficients, low: target - random.whole(0, 5) };
    return { name, coefficients, low: target - random.whole(0, 5), high: target + random.whole(0, 5) };
  });
  return { columns, rows, sense: random.pick(['min', 'max'] as const), objective: columns.map(() => number(9)) };
}

/** A blend with use flags: tight big-M (density times volume), at most K of the materials, a least dose if used. */
export function flaggedBlend(seed: number): LinearProgram {
  const random = seededRandom(seed + 500_000);
  const { program, materials, volume } = blendProgram(seed, { size: random.whole(8, 20) });
  const n = materials.length;
  const widen = (row: Row): Row => ({ ...row, coefficients: [...row.coefficients, ...new Array<number>(n).fill(0)] });
  const rows = program.rows.map(widen);
  const least = random.between(0.002, 0.02) * volume;
  materials.forEach((m, j) => {
    const most = Math.min(m.density * volume, program.columns[j]!.upper ?? Number.POSITIVE_INFINITY);
    const link = (factor: number) => Array.from({ length: 2 * n }, (_, k) => (k === j ? 1 : k === n + j ? -factor : 0));
    rows.push({ name: `use ${j}`, coefficients: link(most), high: 0, scale: volume });
    if (random.chance(0.7)) rows.push({ name: `least ${j}`, coefficients: link(least), low: 0, scale: volume });
  });
  const count = Array.from({ length: 2 * n }, (_, k) => Number(k >= n));
  rows.push({ name: 'ingredients', coefficients: count, high: random.whole(5, Math.max(6, Math.floor(n * 0.7))) });
  const flags = materials.map((_, j): Column => ({ name: `flag ${j}`, lower: 0, upper: 1, integer: true }));
  return {
    ...program,
    columns: [...program.columns, ...flags],
    rows,
    objective: [...program.objective, ...new Array<number>(n).fill(0)],
  };
}

/** A blend bought in whole packs: amounts up to packs times pack size, the least paid (or carried) in packs. */
export function packedBlend(seed: number): LinearProgram {
  const random = seededRandom(seed + 700_000);
  const { program, materials, volume } = blendProgram(seed, { size: random.whole(8, 16) });
  const n = materials.length;
  const packs = materials.map(() => volume * random.pick([0.05, 0.1, 0.25, 0.5, 1]));
  const rows = program.rows.map(
    (row): Row => ({ ...row, coefficients: [...row.coefficients, ...new Array<number>(n).fill(0)] }),
  );
  packs.forEach((pack, j) => {
    const coefficients = Array.from({ length: 2 * n }, (_, k) => (k === j ? 1 : k === n + j ? -pack : 0));
    rows.push({ name: `packs ${j}`, coefficients, high: 0, scale: volume });
  });
  const counts = materials.map((m, j): Column => {
    const upper = Math.ceil((m.density * volume) / packs[j]!) + 1;
    return { name: `packs of ${j}`, lower: 0, upper, integer: true };
  });
  return {
    columns: [...program.columns, ...counts],
    rows,
    sense: 'min',
    objective: [...new Array<number>(n).fill(0), ...materials.map((m, j) => m.price * packs[j]!)],
  };
}

/** Any small mixed-integer program: whole-number data, bounded integer columns, some continuous ones. */
export function anyMixedProgram(seed: number): LinearProgram {
  const random = seededRandom(seed + 900_000);
  const base = anyProgram(seed);
  const columns = base.columns.map((column): Column => {
    const integer = random.chance(0.7);
    const lower = Number.isFinite(column.lower ?? 0) ? (column.lower ?? 0) : -20;
    const upper = Number.isFinite(column.upper ?? Number.POSITIVE_INFINITY) ? column.upper! : lower + 25;
    return { name: column.name, lower, upper: Math.max(lower, upper), ...(integer ? { integer } : {}) };
  });
  return { ...base, columns };
}

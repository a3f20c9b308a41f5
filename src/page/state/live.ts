import type { Near } from '../../core/index.js';
import { plainWords } from '../parts/notice-words.js';
import type { Answer } from '../worker/asks.js';
import { asOneText, beside, filesOfShop } from '../worker/folder.js';
import type { Told } from '../worker/told.js';
import { type Bench, bench, say, update, watch } from './bench.js';
import type { Desk } from './desk.js';
import { dataOf, textField } from './edit.js';

/** A pause this long (ms) ends a change: then the whole proposal is asked for. */
const PAUSE = 160;

let version = 0;
let shown = 0;
let timer: ReturnType<typeof setTimeout> | undefined;

/**
 * Proposes anew at every change of the open brief or its shop: at once near the last blend, by a worker that does nothing
 * else, and, when the maker pauses, in full by the other.
 */
export function startLive(quick: Desk, steady: Desk): void {
  watch((now, before) => {
    if (briefKey(now) !== briefKey(before)) proposeAnew(quick, steady);
    if (recipeKey(now) !== recipeKey(before)) assessAnew(steady);
  });
  proposeAnew(quick, steady);
  assessAnew(steady);
}

/** A file with the files it points to. */
function keyOf({ folder }: Bench, file: string): string {
  const named = textField(dataOf(folder[file] ?? ''), ['shop']);
  if (named === '') return asOneText(folder, [file]);
  const shop = beside(file, named);
  return asOneText(folder, [file, ...filesOfShop(shop, dataOf(folder[shop] ?? ''))]);
}

const keys = new WeakMap<Bench['folder'], Map<string, string>>();

function cached(b: Bench, file: string | null): string {
  if (file === null) return '';
  const known = keys.get(b.folder) ?? new Map<string, string>();
  keys.set(b.folder, known);
  if (!known.has(file)) known.set(file, keyOf(b, file));
  return known.get(file)!;
}

const briefKey = (b: Bench): string => cached(b, b.brief);
const recipeKey = (b: Bench): string => cached(b, b.recipe);

const seedOf = (told: Told | null): Near | null => {
  if (told === null || !('system' in told.result)) return null;
  return {
    system: told.result.system,
    grams: Object.fromEntries(told.result.blend.map((i) => [i.material, i.pieceGrams])),
  };
};

function proposeAnew(quick: Desk, steady: Desk): void {
  const { brief, folder, told } = bench;
  version++;
  clearTimeout(timer);
  if (brief === null) {
    update({ told: null, problems: [], busy: false });
    return;
  }
  const mine = version;
  const same = told !== null && told.file === brief;
  const near = same ? seedOf(told) : null;
  const began = performance.now();
  const before = same ? told : null;
  update({ busy: true, told: before });
  if (near !== null) {
    void quick.ask('near', 'near', folder, { file: brief, near }).then((answer) => {
      if (answer === null || mine <= shown || bench.brief !== brief) return;
      if (answer.ok && answer.value !== null) {
        shown = mine;
        update({ told: answer.value, problems: [] });
        requestAnimationFrame(() =>
          performance.measure('live', { start: began, end: performance.now(), detail: answer.took }),
        );
      } else if (!answer.ok && mine === version) update({ problems: answer.problems });
    });
  }
  timer = setTimeout(
    () => {
      void steady.ask('blend', 'blend', folder, { file: brief }).then((answer) => {
        if (answer === null || mine !== version) return;
        shown = mine;
        settle(answer, began);
        if (near === null && answer.ok) void warm(quick, brief, answer.value);
      });
    },
    near === null ? 0 : PAUSE,
  );
}

function settle(answer: Answer<Told>, began: number): void {
  performance.measure('settled', { start: began, end: performance.now(), detail: answer.took });
  if (!answer.ok) {
    update({ problems: answer.problems, busy: false });
    say(answer.problems[0] === undefined ? '' : plainWords(answer.problems[0]));
    return;
  }
  update({ told: answer.value, problems: [], busy: false });
  const { result } = answer.value;
  const missed = result.targets.filter((t) => !t.met).map((t) => t.name);
  say(
    missed.length === 0
      ? `New blend of ${result.blend.length} materials: all ${result.targets.length} targets met.`
      : `New blend: misses ${missed.join(', ')}.`,
  );
}

/** Rounds after which the browser has made the quick worker's code fast. */
const WARMING = 3;

/** A brief that has just been opened is asked for again where quick looks come from, so that the first change is quick too. */
async function warm(quick: Desk, brief: string, told: Told): Promise<void> {
  const near = seedOf(told);
  for (let i = 0; i < WARMING && near !== null && bench.brief === brief; i++)
    await quick.ask('warm', 'near', bench.folder, { file: brief, near });
}

let assessVersion = 0;

function assessAnew(steady: Desk): void {
  const { recipe, folder } = bench;
  const mine = ++assessVersion;
  if (recipe === null) {
    update({ assessed: null, assessProblems: [] });
    return;
  }
  void steady.ask('assess', 'blend', folder, { file: recipe }).then((answer) => {
    if (answer === null || mine !== assessVersion) return;
    if (answer.ok) update({ assessed: answer.value, assessProblems: [] });
    else update({ assessProblems: answer.problems });
  });
}

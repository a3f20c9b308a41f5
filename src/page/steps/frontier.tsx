import { useId, useState } from 'preact/hooks';
import {
  AIMS,
  type AssessmentResult,
  OBJECTIVES,
  type Objective,
  type ProposalResult,
  printLimit,
  printProperty,
  propertyById,
  reachableLimit,
  type Wording,
} from '../../core/index.js';
import { FrontierPlot } from '../draw/frontier.js';
import { Pills } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { OBJECTIVE_WORDS, propertyOf, roughly } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import type { Bench } from '../state/bench.js';
import { dataOf, textField } from '../state/edit.js';
import { editField } from '../state/files.js';
import type { FrontierTold } from '../worker/frontier.js';

/** What one wish costs the other: asked for, because it takes many proposals. */
export function FrontierPart({
  bench,
  wording,
  priced,
}: {
  readonly bench: Bench;
  readonly wording: Wording;
  readonly priced: boolean;
}) {
  const file = bench.brief!;
  const objective = textField(dataOf(bench.folder[file] ?? ''), ['objective']);
  const [against, setAgainst] = useState<Objective | ''>('');
  const wishes = OBJECTIVES.filter(
    (o) =>
      o !== objective && (o !== 'cheapest' || priced) && AIMS[o].property !== AIMS[objective as Objective]?.property,
  );
  const had = useAnswer(
    'frontier',
    'frontier',
    bench.folder,
    against === '' || against === objective ? null : { file, against },
  );
  return (
    <section aria-labelledby="frontier-title">
      <h2 id="frontier-title">What another wish would cost</h2>
      <Pills
        legend={`${OBJECTIVE_WORDS[objective] ?? objective}, against`}
        value={against}
        options={wishes.map((value) => ({ value, text: OBJECTIVE_WORDS[value] ?? value }))}
        onPick={setAgainst}
      />
      {against !== '' && had.busy && <p class="hint">Tracing the blends between the two wishes…</p>}
      <Notices problems={had.problems} title="What to put right" />
      {against !== '' && had.value !== null && (
        <div class={had.busy ? 'stale' : undefined}>
          <Traced told={had.value} result={bench.told?.result ?? null} wording={wording} file={file} />
        </div>
      )}
    </section>
  );
}

interface TracedProps {
  readonly told: FrontierTold;
  readonly result: AssessmentResult | ProposalResult | null;
  readonly wording: Wording;
  readonly file: string;
}

function Traced({ told, result, wording, file }: TracedProps) {
  const id = useId();
  const [wanted, setWanted] = useState(0);
  const { points, of, against } = told;
  if (points.length === 0) return <p>No blend meets the brief, so there is nothing to trace.</p>;
  const at = Math.min(wanted, points.length - 1);
  const point = points[at]!;
  const [nowOf, nowAgainst] = [of, against].map((p) => (result === null ? null : propertyOf(result, p)));
  const here = nowOf == null || nowAgainst == null ? null : { of: nowOf, against: nowAgainst };
  const say = (property: string, v: number): string => printProperty(property, v, wording);
  // The brief learns the limit, so that the command line proposes this very blend.
  const take = (index: number): void => {
    const { against: value } = points[index]!;
    setWanted(index);
    editField(file, ['targets', against, told.rising ? 'min' : 'max'], limitText(against, value, told.rising, wording));
  };
  if (points.length === 1) return <p>One blend is best at both: the one on the bench.</p>;
  return (
    <>
      <p class="hint">
        {points.length} blends, none better in both. Up: {propertyById(of)!.name}. A tap on a point takes its blend; the
        cross is the blend on the bench.
      </p>
      <FrontierPlot told={told} bench={here} wording={wording} at={at} onTake={take} />
      <div class="field">
        <label for={id}>Along the line</label>
        <input
          id={id}
          type="range"
          min={0}
          max={points.length - 1}
          value={at}
          aria-valuetext={`${say(of, point.of)}, ${say(against, point.against)}`}
          onInput={(e) => setWanted(Number(e.currentTarget.value))}
        />
      </div>
      <p>
        <b>
          {say(of, point.of)}, {say(against, point.against)}
        </b>
        <br />
        <small>{point.blend.map((b) => `${b.name} ${roughly(b.grams, wording)}`).join(', ')}</small>
      </p>
      <button type="button" class="button" onClick={() => take(at)}>
        Take this blend
      </button>
    </>
  );
}

/** The point's value as a limit, rounded so that the point itself still keeps it. */
function limitText(id: string, value: number, rising: boolean, wording: Wording): string {
  const { quantity } = propertyById(id)!;
  // What a limit keeps in words.
  const digits = quantity === 'money' ? 3 : 4;
  const limit = reachableLimit(rising ? 'min' : 'max', value, { property: id, system: wording.system, digits });
  return printLimit(limit, quantity, wording);
}

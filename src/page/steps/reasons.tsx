import { useState } from 'preact/hooks';
import { NO_REASONS, type ProposalResult, reasonsWords, type Wording } from '../../core/index.js';
import { Fold } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { useAnswer } from '../state/answers.js';
import type { Bench } from '../state/bench.js';

interface ReasonsPartProps {
  readonly bench: Bench;
  /** The blend on the bench, once it is settled. */
  readonly proposal: ProposalResult | null;
  readonly wording: Wording;
}

/** Entries in view at first. */
const MOST_ENTRIES = 12;

/** Why the blend is no better: asked for, because it takes several proposals. */
export function ReasonsPart({ bench, proposal, wording }: ReasonsPartProps) {
  const [wanted, setWanted] = useState(false);
  const had = useAnswer('reasons', 'reasons', bench.folder, wanted ? { file: bench.brief! } : null);
  const answered = wanted && !had.busy && proposal !== null;
  const words = answered && had.value !== null ? reasonsWords(proposal.objective, had.value, wording) : null;
  return (
    <section aria-labelledby="reasons-title">
      <h2 id="reasons-title">What holds it back</h2>
      {!wanted && (
        <button type="button" class="button" onClick={() => setWanted(true)}>
          Look into it
        </button>
      )}
      {wanted && !answered && (
        <p class="hint" role="status">
          Looking for what holds the blend back…
        </p>
      )}
      <Notices problems={had.problems} title="What to put right" />
      {answered && had.value === null && had.problems.length === 0 && <p>{NO_REASONS}</p>}
      {words !== null && (
        <>
          <Lines rows={words.held} none={words.free} />
          <h3 class="named">What it does without</h3>
          <Lines rows={words.entries.slice(0, MOST_ENTRIES)} none={words.noEntries} />
          {words.entries.length > MOST_ENTRIES && (
            <Fold name={`and ${words.entries.length - MOST_ENTRIES} more`}>
              <Lines rows={words.entries.slice(MOST_ENTRIES)} none={null} />
            </Fold>
          )}
        </>
      )}
    </section>
  );
}

/** Name, how it stands, what would change. */
function Lines({
  rows,
  none,
}: {
  readonly rows: readonly (readonly [string, string, string])[];
  readonly none: string | null;
}) {
  if (none !== null) return <p>{none}</p>;
  return (
    <dl class="expect">
      {rows.map(([name, stands, then]) => (
        <div key={name + stands}>
          <dt>
            {name} <small>{stands}</small>
          </dt>
          <dd>{then}</dd>
        </div>
      ))}
    </dl>
  );
}

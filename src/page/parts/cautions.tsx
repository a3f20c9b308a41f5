import { useEffect } from 'preact/hooks';
import type { AssessmentResult } from '../../core/index.js';
import { update } from '../state/bench.js';

const WORD = { stop: 'Stop', warn: 'Warning', caution: 'Caution', info: 'Note' } as const;

type CautionSet = AssessmentResult['cautions'];

/** The cautions, gravest first: a line each, or in full. There is no way to hide them. */
export function Cautions({ set, full }: { readonly set: CautionSet; readonly full: boolean }) {
  return (
    <section class="cautions" id="cautions" aria-labelledby="cautions-title">
      <div class="row">
        <h2 id="cautions-title">Cautions</h2>
        <button type="button" class="quiet" aria-pressed={full} onClick={() => update({ fullCautions: !full })}>
          {full ? 'A line each' : 'In full'}
        </button>
      </div>
      <ul class="caution-list">
        {set.cautions.map((c) => (
          <li key={c.id} class={c.severity}>
            <b class="tag">{WORD[c.severity]}</b>
            {full ? (
              <div>
                <p>
                  <b>{c.title}.</b> {c.text}
                </p>
                <p class="small">
                  Why here: {c.because}. Source: {c.source}.
                </p>
              </div>
            ) : (
              <p>{c.short}</p>
            )}
          </li>
        ))}
      </ul>
      <h3>First aid</h3>
      <dl class="aid">
        {set.firstAid.map((line) => (
          <div key={line.when}>
            <dt>{line.when}</dt>
            <dd>{line.act}</dd>
          </div>
        ))}
      </dl>
      <p class="closing">{set.closing}</p>
    </section>
  );
}

/** While a step looks at something of its own, the cautions of that are at the foot of the window. */
export function useCautionsInView(set: CautionSet | null): void {
  useEffect(() => {
    update({ stepCautions: set });
    return () => update({ stepCautions: null });
  }, [set]);
}

/** The gravest caution, at the foot of the window on every step; leads to the whole list. */
export function CautionStrip({ set }: { readonly set: CautionSet }) {
  const first = set.cautions[0];
  if (first === undefined) return null;
  const others = set.cautions.length - 1;
  return (
    <a class={`strip ${first.severity}`} href="#cautions">
      <b class="tag">{WORD[first.severity]}</b>
      <span class="strip-text">{first.short}</span>
      <span class="strip-more">{others > 0 ? `${others} more` : ''}</span>
    </a>
  );
}

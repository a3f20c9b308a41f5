import type { AssessmentResult } from '../../core/index.js';

/** What may spoil the piece, a line or two each, the worst first. Harm to people is told by the cautions. */
export function Risks({ risks }: { readonly risks: AssessmentResult['risks'] }) {
  if (risks.length === 0) return null;
  return (
    <section class="group" aria-labelledby="risks-title">
      <h2 id="risks-title">What may spoil it</h2>
      <ul class="caution-list risks">
        {risks.map((r) => (
          <li key={r.id} class={r.level}>
            <b class="tag">
              {r.level}
              <span class="unseen"> risk</span>
            </b>
            <div>
              <p>{r.text}</p>
              <p class="small">Source: {r.source}.</p>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

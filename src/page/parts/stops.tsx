import { type AssessmentResult, stopsIn } from '../../core/index.js';

/** What bars a blend, beside the blend itself: nobody need look for it among the cautions. */
export function Stops({ set }: { readonly set: AssessmentResult['cautions'] }) {
  const stops = stopsIn(set);
  if (stops.length === 0) return null;
  return (
    <section class="notices stops stop" aria-label="Stop">
      {stops.map((c) => (
        <p key={c.id}>
          <b class="tag">Stop</b> {c.short}
        </p>
      ))}
    </section>
  );
}

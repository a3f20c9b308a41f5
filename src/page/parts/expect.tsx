import {
  type AssessmentResult,
  isTold,
  printLikely,
  printTold,
  propertyById,
  rangeWords,
  spreadWords,
  type Wording,
} from '../../core/index.js';

/** Every property the blend has, with its likely range and, on request, what it rests on. */
export function Expect({
  result,
  wording,
}: {
  readonly result: Pick<AssessmentResult, 'piece' | 'properties'>;
  readonly wording: Wording;
}) {
  const had = result.properties.filter(isTold);
  return (
    <section aria-labelledby="expect-title">
      <h2 id="expect-title">What to expect of {result.piece.volume === null ? 'the batch' : 'one piece'}</h2>
      <dl class="expect">
        {had.map((p) => (
          <div key={p.property}>
            <dt>
              <details class="why">
                <summary>{p.name}</summary>
                <p>
                  {propertyById(p.property)?.meaning}. Rests on {p.restsOn}.
                  {p.contributors.length === 0 ? '' : ` Most of its spread: ${spreadWords(p)}.`} Models:{' '}
                  {p.models.join(', ')}.
                </p>
              </details>
            </dt>
            <dd>
              {printTold(p, wording)}
              <small>{printLikely(p, wording)}</small>
            </dd>
          </div>
        ))}
      </dl>
      <p class="hint">{rangeWords(result)}</p>
    </section>
  );
}

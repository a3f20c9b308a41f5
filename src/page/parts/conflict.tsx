import {
  type ProposalResult,
  printAs,
  printDifference,
  printProperty,
  printWindow,
  propertyById,
  type Wording,
} from '../../core/index.js';

type Collision = NonNullable<ProposalResult['conflict']>['missed'][number];

/** A limit that the nearest blend meets: its value, rounded outwards so that rounding does not miss it again. */
function relaxed(c: Collision, wording: Wording): string | null {
  if (c.nearest === null) return null;
  const { quantity } = propertyById(c.property)!;
  const digits = 3;
  const unit = 10 ** (Math.floor(Math.log10(Math.abs(c.nearest) || 1)) - digits + 1);
  const steps = c.nearest / unit;
  const value = unit * (c.side === 'max' ? Math.ceil(steps + 1e-9) : Math.floor(steps - 1e-9));
  return printAs(value, quantity, digits + 1, wording);
}

interface ConflictProps {
  readonly result: ProposalResult;
  readonly wording: Wording;
  readonly draft: boolean;
  readonly onRelax: (changes: readonly { property: string; side: 'min' | 'max'; text: string }[]) => void;
}

/** Why nothing fits, by how much the nearest blend misses, and the limits that would let it fit. */
export function Conflict({ result, wording, draft, onRelax }: ConflictProps) {
  if (result.status === 'met') return null;
  const { conflict } = result;
  if (conflict === null)
    return (
      <section class="conflict" aria-label="Why nothing fits">
        <h2>{draft ? 'Nothing fits, it seems' : 'The scale is too coarse'}</h2>
        <p>
          {draft
            ? 'Looking for what stands in the way…'
            : 'A blend exists, but none that this scale can weigh out meets every limit. A finer scale or a larger batch would.'}
        </p>
      </section>
    );
  const changes = conflict.missed.flatMap((c) => {
    const text = relaxed(c, wording);
    return text === null ? [] : [{ property: c.property, side: c.side, text }];
  });
  return (
    <section class="conflict" aria-labelledby="conflict-title">
      <h2 id="conflict-title">No blend meets everything</h2>
      {conflict.collisions.length > 0 && (
        <>
          <p>These cannot hold together:</p>
          <ul class="plain">
            {conflict.collisions.map((c) => (
              <li key={`${c.property} ${c.side}`}>
                {propertyById(c.property)!.name}{' '}
                <b>
                  {printWindow(
                    c.property,
                    c.side === 'min' ? c.limit : null,
                    c.side === 'max' ? c.limit : null,
                    wording,
                  )}
                </b>
                {c.kind === 'standing' ? ' (kept by every blend)' : ''}
              </li>
            ))}
          </ul>
        </>
      )}
      <p>The nearest blend, shown here, misses:</p>
      <ul class="plain">
        {conflict.missed.map((c) => {
          const text = relaxed(c, wording);
          const side = c.side === 'max' ? 'at most' : 'at least';
          return (
            <li key={`${c.property} ${c.side}`}>
              {propertyById(c.property)!.name}: <b>{printProperty(c.property, c.nearest, wording)}</b>, missed by{' '}
              {printDifference(c.property, c.missedBy, wording)}{' '}
              {text !== null && (
                <button
                  type="button"
                  class="relax"
                  onClick={() => onRelax([{ property: c.property, side: c.side, text }])}
                >
                  allow {side} {text}
                </button>
              )}
            </li>
          );
        })}
      </ul>
      {changes.length > 1 && (
        <button type="button" class="button" onClick={() => onRelax(changes)}>
          Allow all of these
        </button>
      )}
    </section>
  );
}

import type { ComponentChildren } from 'preact';
import {
  notWeighedWords,
  type ProposalResult,
  printBeside,
  printLimit,
  printMiss,
  printWindow,
  propertyById,
  reachableLimit,
  type Wording,
} from '../../core/index.js';

interface Miss {
  readonly property: string;
  readonly side: 'min' | 'max';
  readonly limit: number;
  readonly nearest: number;
  readonly missedBy: number;
}

/** Every side that is missed: by the nearest blend, or by what of it can be weighed out. */
function missesOf(result: ProposalResult): Miss[] {
  const misses = new Map<string, Miss>();
  const add = (property: string, side: 'min' | 'max', limit: number, value: number): void => {
    const missedBy = side === 'max' ? value - limit : limit - value;
    const known = misses.get(`${property} ${side}`);
    if (missedBy > 0 && missedBy > (known?.missedBy ?? 0))
      misses.set(`${property} ${side}`, { property, side, limit, nearest: value, missedBy });
  };
  for (const c of result.conflict?.missed ?? []) if (c.nearest !== null) add(c.property, c.side, c.limit, c.nearest);
  for (const v of [...result.targets, ...result.standing]) {
    if (v.met || v.value === null) continue;
    if (v.max !== null) add(v.property, 'max', v.max, v.value);
    if (v.min !== null) add(v.property, 'min', v.min, v.value);
  }
  return [...misses.values()];
}

const beside = ({ property, side, limit, nearest }: Miss) => ({
  property,
  value: nearest,
  min: side === 'min' ? limit : null,
  max: side === 'max' ? limit : null,
});

/** A limit that the nearest blend meets: its value, rounded outwards so that rounding does not miss it again. */
function relaxed({ property, side, nearest }: Miss, wording: Wording): string {
  const { quantity } = propertyById(property)!;
  // Money to the cent.
  const digits = quantity === 'money' ? Math.max(1, Math.floor(Math.log10(nearest)) + 3) : 3;
  const limit = reachableLimit(side, nearest, { property, system: wording.system, digits });
  return printLimit(limit, quantity, wording);
}

interface ConflictProps {
  readonly result: ProposalResult;
  readonly wording: Wording;
  readonly draft: boolean;
  /** Ways out that were looked for; drawn below the misses. */
  readonly children?: ComponentChildren;
  readonly onRelax: (changes: readonly { property: string; side: 'min' | 'max'; text: string }[]) => void;
}

/** Why a blend that exists is not weighed out, and what would help. */
function Unweighed({ words }: { readonly words: ReturnType<typeof notWeighedWords> }) {
  if (words === null) return null;
  return (
    <>
      <p>{words.lead}</p>
      <ul class="plain">
        {words.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p>{words.after}</p>
    </>
  );
}

/** Why nothing fits, by how much the nearest blend misses, and the limits that would let it fit. */
export function Conflict({ result, wording, draft, children, onRelax }: ConflictProps) {
  if (result.status === 'met') return null;
  const { conflict } = result;
  const unweighed = draft ? null : notWeighedWords(result, wording);
  if (conflict === null)
    return (
      <section class="conflict" aria-labelledby="conflict-title">
        <h2 id="conflict-title">{draft ? 'Nothing fits, it seems' : 'No blend meets everything'}</h2>
        {draft && <p>Looking for what stands in the way…</p>}
        <Unweighed words={unweighed} />
      </section>
    );
  const misses = missesOf(result);
  const changes = misses.map((m) => ({ property: m.property, side: m.side, text: relaxed(m, wording) }));
  return (
    <section class="conflict" aria-labelledby="conflict-title">
      <h2 id="conflict-title">No blend meets everything</h2>
      <Unweighed words={unweighed} />
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
      {conflict.missed.length > 0 && <p>The nearest blend, shown here, misses:</p>}
      <ul class="plain">
        {conflict.missed
          .filter((c) => c.nearest === null)
          .map((c) => (
            <li key={`${c.property} ${c.side}`}>
              {propertyById(c.property)!.name}:{' '}
              <b>{result.properties.find((p) => p.property === c.property)?.why ?? 'none'}</b>
            </li>
          ))}
        {misses.map((m, i) => {
          const change = changes[i]!;
          return (
            <li key={`${m.property} ${m.side}`}>
              {propertyById(m.property)!.name}: <b>{printBeside(beside(m), null, wording)}</b>, missed by{' '}
              {printMiss(m.property, m.missedBy, m.nearest, wording)}{' '}
              <button type="button" class="relax" onClick={() => onRelax([change])}>
                allow {m.side === 'max' ? 'at most' : 'at least'} {change.text}
              </button>
            </li>
          );
        })}
      </ul>
      {changes.length > 1 && (
        <button type="button" class="button" onClick={() => onRelax(changes)}>
          Allow all of these
        </button>
      )}
      {children}
    </section>
  );
}

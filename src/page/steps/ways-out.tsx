import { printWindow, reachableLimit, UNPRICED, type WaysOutResult, type Wording } from '../../core/index.js';
import { listField } from '../state/edit.js';
import { editField } from '../state/files.js';

interface WaysOutProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly ways: WaysOutResult;
  readonly wording: Wording;
}

const window = (side: 'min' | 'max', limit: number) =>
  [side === 'min' ? limit : null, side === 'max' ? limit : null] as const;

/** Named without a price the brief would be refused. */
const lacksPrice = ({ why }: { readonly why: string }): boolean => why.endsWith(UNPRICED);

/** How far each target alone would have to give way, and the materials that would help: each at one tap. */
export function WaysOut({ file, data, ways, wording }: WaysOutProps) {
  const allow = (materials: readonly string[]): void => {
    const never = listField(data, ['materials', 'never']).filter((m) => !materials.includes(m));
    editField(file, ['materials', 'never'], never.length === 0 ? undefined : never);
    const only = listField(data, ['materials', 'only']);
    const list = only.length > 0 ? 'only' : 'also';
    const known = listField(data, ['materials', list]);
    editField(file, ['materials', list], [...known, ...materials.filter((m) => !known.includes(m))]);
  };
  const sets = new Set(ways.colliding.map((c) => c.set)).size;
  const reach = ways.colliding.filter((c) => c.reachable !== null || c.without !== undefined);
  return (
    <>
      {reach.length > 0 && (
        <>
          <p>
            {sets === 1
              ? 'Give way in any one of these, and the brief can be met:'
              : 'Each of these is told as if the others had given way; more than one has to:'}
          </p>
          <ul class="plain">
            {reach.map((c) => {
              const path = ['targets', c.property, c.side];
              if (c.reachable === null)
                return (
                  <li key={`${c.property} ${c.side}`}>
                    {c.name}{' '}
                    <button type="button" class="relax" onClick={() => editField(file, path, undefined)}>
                      give it up
                    </button>{' '}
                    <small>{c.without}</small>
                  </li>
                );
              const limit = reachableLimit(c.side, c.reachable, { property: c.property, system: wording.system });
              const words = printWindow(c.property, ...window(c.side, limit), wording);
              return (
                <li key={`${c.property} ${c.side}`}>
                  {c.name}{' '}
                  <button
                    type="button"
                    class="relax"
                    onClick={() => editField(file, path, words.replace(/^at (?:most|least) /, ''))}
                  >
                    allow {words}
                  </button>
                </li>
              );
            })}
          </ul>
        </>
      )}
      {ways.materials.length > 0 && (
        <>
          <p>Or take one of these in, with which it can be met as it is:</p>
          <ul class="plain">
            {ways.materials.map((m) => (
              <li key={m.material}>
                {m.name} <small>{m.why}</small>{' '}
                {m.mostPrice === null && !lacksPrice(m) && (
                  <button type="button" class="relax" onClick={() => allow([m.material])}>
                    take it in
                  </button>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
      {ways.together.length > 0 && (
        <p>
          Or take all of these in: {ways.together.map((m) => m.name).join(', ')}{' '}
          {!ways.together.some(lacksPrice) && (
            <button type="button" class="relax" onClick={() => allow(ways.together.map((m) => m.material))}>
              take them in
            </button>
          )}
        </p>
      )}
    </>
  );
}

import { useState } from 'preact/hooks';
import { Field, Fold } from '../parts/field.js';
import { isProposal, spaced } from '../parts/words.js';
import { listField } from '../state/edit.js';
import { editField } from '../state/files.js';
import { shippedMaterials } from '../state/shipped.js';
import type { Told } from '../worker/told.js';

interface ShelfChoiceProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly told: Told | null;
}

type Word = 'free' | 'only' | 'also' | 'never';
const WORDS: readonly (readonly [Word, string])[] = [
  ['free', 'free'],
  ['also', 'allow'],
  ['only', 'only'],
  ['never', 'never'],
];

/** Which materials may be used, and why others are left out. */
export function ShelfChoice({ file, data, told }: ShelfChoiceProps) {
  const [sought, setSought] = useState('');
  const lists = {
    only: listField(data, ['materials', 'only']),
    also: listField(data, ['materials', 'also']),
    never: listField(data, ['materials', 'never']),
  };
  const out = new Map(
    told !== null && isProposal(told.result) ? told.result.leftOut.map((l) => [l.material, l.why]) : [],
  );
  const used = new Set(told?.result.blend.map((i) => i.material) ?? []);
  const found = shippedMaterials().filter(
    (m) => m.kind !== 'water' && `${m.name} ${m.id} ${m.kind}`.toLowerCase().includes(sought.toLowerCase()),
  );
  const ruled = lists.only.length + lists.also.length + lists.never.length;
  const pick = (id: string, word: Word): void => {
    for (const name of ['only', 'also', 'never'] as const) {
      const has = lists[name].includes(id);
      if (name === word && !has) editField(file, ['materials', name], [...lists[name], id]);
      if (name !== word && has) {
        const left = lists[name].filter((m) => m !== id);
        editField(file, ['materials', name], left.length === 0 ? undefined : left);
      }
    }
  };
  return (
    <Fold name={`Materials that may be used${ruled > 0 ? ` (${ruled} rules)` : ''}`}>
      <Field label="Find" value={sought} hint="sand, red, plaster…" onEdit={setSought} />
      <ul class="materials">
        {found.map((m) => {
          const word: Word = lists.never.includes(m.id)
            ? 'never'
            : lists.only.includes(m.id)
              ? 'only'
              : lists.also.includes(m.id)
                ? 'also'
                : 'free';
          return (
            <li key={m.id}>
              <span class="what">
                {m.name}
                <small>{used.has(m.id) ? 'in the blend' : (out.get(m.id) ?? spaced(m.kind))}</small>
              </span>
              <select
                aria-label={`May ${m.name} be used`}
                value={word}
                onChange={(e) => pick(m.id, e.currentTarget.value as Word)}
              >
                {WORDS.map(([value, text]) => (
                  <option key={value} value={value}>
                    {text}
                  </option>
                ))}
              </select>
            </li>
          );
        })}
      </ul>
    </Fold>
  );
}

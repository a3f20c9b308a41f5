import { useState } from 'preact/hooks';
import { Choice, Field, problemAt } from '../parts/field.js';
import { MaterialList } from '../parts/material-list.js';
import { useWords } from '../parts/units.js';
import { fieldOf } from '../state/edit.js';
import { editField } from '../state/files.js';
import type { Notice } from '../worker/notice.js';

interface AmountsProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  /** Where `amounts` and `basis` stand in the file. */
  readonly path: readonly string[];
  readonly problems: readonly Notice[];
}

/** A recipe line by line: what, and how much; bare numbers are parts, and their basis has to be said. */
export function Amounts({ file, data, path, problems }: AmountsProps) {
  const amounts = (fieldOf(data, [...path, 'amounts']) ?? {}) as Record<string, unknown>;
  const words = useWords();
  const [word, setWord] = useState('');
  const at = (name: string): string => [...path, 'amounts', name].join('.');
  const basis = fieldOf(data, [...path, 'basis']);
  const add = (): void => {
    if (word.trim() === '') return;
    editField(file, [...path, 'amounts', word.trim()], bare(amounts) ? '1' : words('⟦100 g|4 oz⟧'));
    setWord('');
  };
  return (
    <div class="amounts">
      {Object.entries(amounts).map(([name, amount]) => (
        <div class="amount" key={name}>
          <Field
            label={name.replaceAll('-', ' ')}
            value={typeof amount === 'string' || typeof amount === 'number' ? String(amount) : ''}
            hint="⟦100 g|4 oz⟧, 1 cup, 2"
            problem={problemAt(problems, at(name))}
            onEdit={(t) => t !== '' && editField(file, [...path, 'amounts', name], t)}
          />
          <button
            type="button"
            class="quiet"
            aria-label={`Take out ${name.replaceAll('-', ' ')}`}
            onClick={() => editField(file, [...path, 'amounts', name], undefined)}
          >
            ✕
          </button>
        </div>
      ))}
      <form
        class="add"
        onSubmit={(e) => {
          e.preventDefault();
          add();
        }}
      >
        <MaterialList label="Add a material" value={word} onEdit={setWord} />
        <button type="submit" class="button">
          Add
        </button>
      </form>
      <Choice
        label="Bare numbers are parts by"
        value={typeof basis === 'string' ? basis : ''}
        options={[
          { value: '', text: 'not said' },
          { value: 'mass', text: 'mass' },
          { value: 'scoop', text: 'scoop (loose volume)' },
        ]}
        onPick={(b) => editField(file, [...path, 'basis'], b)}
      />
    </div>
  );
}

const bare = (amounts: Record<string, unknown>): boolean =>
  Object.values(amounts).some((a) => typeof a === 'number' || /^[\d.,/ ]+$/.test(String(a)));

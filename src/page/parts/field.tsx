import type { ComponentChildren } from 'preact';
import { useId, useState } from 'preact/hooks';
import type { Notice } from '../worker/notice.js';
import { plainWords } from './notice-words.js';
import { useWords } from './units.js';

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly onEdit: (text: string) => void;
  /** What may stand there; quantities in it are marked. */
  readonly hint?: string;
  readonly problem?: Notice | undefined;
  /** Keyboard of a phone. */
  readonly mode?: 'decimal' | 'text' | 'numeric';
  /** The label is read out but not shown: the field stands where it needs none. */
  readonly bare?: boolean;
  readonly type?: 'text' | 'date';
  readonly list?: string;
}

/** A line of text that is the maker's own while it is being typed, whatever the file makes of it. */
export function Field({ label, value, onEdit, hint, problem, mode = 'text', bare, type = 'text', list }: FieldProps) {
  const id = useId();
  const words = useWords();
  const [draft, setDraft] = useState<string | null>(null);
  const told = problem === undefined ? undefined : `${id}-told`;
  return (
    <div class={`field${bare ? ' bare' : ''}`}>
      <label for={id} class={bare ? 'unseen' : undefined}>
        {label}
      </label>
      <input
        id={id}
        type={type}
        inputMode={mode}
        autocomplete="off"
        spellcheck={false}
        placeholder={hint === undefined ? undefined : words(hint)}
        list={list}
        value={draft ?? value}
        aria-invalid={problem !== undefined}
        aria-describedby={told}
        onInput={(e) => {
          setDraft(e.currentTarget.value);
          onEdit(e.currentTarget.value);
        }}
        onBlur={() => setDraft(null)}
      />
      {problem !== undefined && (
        <p class="wrong" id={told}>
          {plainWords(problem)}
        </p>
      )}
    </div>
  );
}

interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly options: readonly { readonly value: T; readonly text: string }[];
  readonly onPick: (value: T) => void;
  readonly bare?: boolean;
}

export function Choice<T extends string>({ label, value, options, onPick, bare }: ChoiceProps<T>) {
  const id = useId();
  return (
    <div class={`field${bare ? ' bare' : ''}`}>
      <label for={id} class={bare ? 'unseen' : undefined}>
        {label}
      </label>
      <select id={id} value={value} onChange={(e) => onPick(e.currentTarget.value as T)}>
        {options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.text}
          </option>
        ))}
      </select>
    </div>
  );
}

interface PillsProps<T extends string> {
  readonly legend: string;
  readonly options: readonly { readonly value: T; readonly text: string }[];
  readonly value: T;
  readonly onPick: (value: T) => void;
}

/** One of a few, all in view. */
export function Pills<T extends string>({ legend, options, value, onPick }: PillsProps<T>) {
  const name = useId();
  return (
    <fieldset class="pills">
      <legend>{legend}</legend>
      {options.map((o) => (
        <label key={o.value} class={o.value === value ? 'on' : undefined}>
          <input type="radio" name={name} checked={o.value === value} onChange={() => onPick(o.value)} />
          {o.text}
        </label>
      ))}
    </fieldset>
  );
}

interface TicksProps {
  readonly legend: string;
  readonly options: readonly { readonly value: string; readonly text: string }[];
  readonly values: readonly string[];
  readonly onPick: (values: readonly string[]) => void;
}

/** Any of a few. */
export function Ticks({ legend, options, values, onPick }: TicksProps) {
  return (
    <fieldset class="pills">
      <legend>{legend}</legend>
      {options.map((o) => {
        const on = values.includes(o.value);
        return (
          <label key={o.value} class={on ? 'on' : undefined}>
            <input
              type="checkbox"
              checked={on}
              onChange={() => onPick(on ? values.filter((v) => v !== o.value) : [...values, o.value])}
            />
            {o.text}
          </label>
        );
      })}
    </fieldset>
  );
}

/** A part that opens; its name stays in view. */
export function Fold({
  name,
  children,
  open,
}: {
  readonly name: string;
  readonly children: ComponentChildren;
  readonly open?: boolean;
}) {
  return (
    <details class="fold" open={open}>
      <summary>{name}</summary>
      <div class="fold-in">{children}</div>
    </details>
  );
}

/** A file of the maker's own, picked from disk. */
export function PickFile({
  label,
  accept,
  onPick,
}: {
  readonly label: string;
  readonly accept: string;
  readonly onPick: (file: File) => void;
}) {
  return (
    <label class="button">
      {label}
      <input
        class="unseen"
        type="file"
        accept={accept}
        onChange={(e) => {
          const file = e.currentTarget.files?.[0];
          e.currentTarget.value = '';
          if (file !== undefined) onPick(file);
        }}
      />
    </label>
  );
}

/** The problem that sits at a field, by its path. */
export const problemAt = (problems: readonly Notice[], path: string): Notice | undefined =>
  problems.find((p) => p.path === path);

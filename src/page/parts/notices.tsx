import type { Notice } from '../worker/notice.js';
import { formWords, lacksPrices } from './notice-words.js';

interface NoticesProps {
  readonly problems: readonly Notice[];
  readonly title: string;
  /** The file whose form is in view: what is wrong in it goes by the names of the form's fields. */
  readonly form?: string;
}

/** Everything that is wrong with the maker's files: by the form's fields, or in the words of the command line. */
export function Notices({ problems, title, form }: NoticesProps) {
  if (problems.length === 0) return null;
  return (
    <section class="notices" aria-label={title}>
      <h3>{title}</h3>
      <ul>
        {problems.map((p) => {
          const { field, text } = formWords(p, form);
          return (
            <li key={p.message} class={p.severity}>
              {field !== null && <b>{field}: </b>}
              {text}
            </li>
          );
        })}
      </ul>
      {problems.some(lacksPrices) && (
        <a class="button" href="#shelf">
          Add prices on the Shelf
        </a>
      )}
    </section>
  );
}

/** Warnings of a blend; a refusal stands over them all. */
export function Warnings({ of }: { readonly of: readonly Notice[] }) {
  return <Notices problems={of} title={of.some((w) => w.severity === 'error') ? 'Do not cast this' : 'Warnings'} />;
}

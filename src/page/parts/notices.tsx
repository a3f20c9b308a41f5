import type { Notice } from '../worker/notice.js';

/** Everything that is wrong with the maker's files, in the words of the command line. */
export function Notices({ problems, title }: { readonly problems: readonly Notice[]; readonly title: string }) {
  if (problems.length === 0) return null;
  return (
    <section class="notices" aria-label={title}>
      <h3>{title}</h3>
      <ul>
        {problems.map((p) => (
          <li key={p.message} class={p.severity}>
            {p.message}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Warnings of a blend; a refusal stands over them all. */
export function Warnings({ of }: { readonly of: readonly Notice[] }) {
  return <Notices problems={of} title={of.some((w) => w.severity === 'error') ? 'Do not cast this' : 'Warnings'} />;
}

import type { ComponentChildren } from 'preact';

/** A wide or long table in a part of its own that scrolls, by keyboard too. */
export function Scroll({ label, children }: { readonly label: string; readonly children: ComponentChildren }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reachable by keyboard
    <section class="scroll" tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}

import type { ComponentChildren } from 'preact';

interface ScrollProps {
  readonly label: string;
  /** Many rows: scrolls up and down too. */
  readonly long?: boolean;
  readonly children: ComponentChildren;
}

/** A wide or long table in a part of its own that scrolls, by keyboard too. */
export function Scroll({ label, long, children }: ScrollProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reachable by keyboard
    <section class={long ? 'scroll long' : 'scroll'} tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}

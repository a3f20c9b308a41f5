/**
 * Markup that has been escaped. Only `markup` makes it, so text of the maker's (names, titles, notes) can never become
 * tags or attributes.
 */
export interface Markup {
  readonly html: string;
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Line breaks become spaces; marks of text direction and lone halves of letters are dropped: they can mislead a reader. */
export const escaped = (text: string): string =>
  text
    .replace(/\p{Cc}+/gu, ' ')
    .replace(/[\p{Cf}\p{Cs}]/gu, '')
    .replace(/[&<>"']/g, (sign) => ESCAPES[sign]!);

type Slot = string | number | Markup | readonly Markup[] | null;

const filled = (slot: Slot): string => {
  if (slot === null) return '';
  if (typeof slot === 'string') return escaped(slot);
  if (typeof slot === 'number') return Number.isFinite(slot) ? String(slot) : '';
  if ('html' in slot) return slot.html;
  return slot.map((part) => part.html).join('');
};

/** A template whose slots are escaped: markup`<td>${name}</td>`. Attributes must be in double quotes. */
export function markup(parts: TemplateStringsArray, ...slots: readonly Slot[]): Markup {
  return { html: parts.reduce((text, part, i) => text + filled(slots[i - 1]!) + part) };
}

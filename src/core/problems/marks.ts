/**
 * Words with quantities in them are written in metric, each quantity that is to follow the reader's units in marks:
 * “dry it at ⟦35 to 40 °C⟧ at most”. Where plain conversion reads badly, the US words stand behind a bar: ⟦1 mm a metre|1/8 in
 * in 10 ft⟧. A difference of temperatures has no offset, so it needs the bar too. Marks stay inside the core: whatever makes
 * the words of a result takes them out, here as metric, in units/marked.ts in either system.
 */
export const MARK = /⟦([^⟦⟧|]*)(?:\|([^⟦⟧|]*))?⟧/g;

/** The words in metric, as they are written, without their marks. */
export const unmarked = (text: string): string => (isMarked(text) ? text.replace(MARK, '$1') : text);

/** Whether a text holds a quantity that follows the reader's units. */
export const isMarked = (text: string): boolean => text.includes('⟦');

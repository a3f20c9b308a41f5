import { propertyById } from '../../core/index.js';
import type { Notice } from '../worker/notice.js';

/** What the fields of a brief's or a recipe's form go by, each by its place in the file. */
export const FIELDS = {
  'mould.water': 'Water that fills it',
  'mould.piece.weight': 'Its weight when it left the mould',
  'batch.pieces': 'Pieces in a batch',
  'batch.waste': 'Waste',
  wall: 'Wall that water dries through',
  'room.temperature': 'Room temperature',
  'room.humidity': 'Room humidity',
  cover: 'Kept covered after demoulding',
  'strength-age': 'Age at which strength counts',
  'limits.ingredients': 'Dry ingredients, at most',
  'limits.least-dose': 'No ingredient below',
  'parts.most': 'Parts of one ingredient, at most',
} as const;

const SIDES: Readonly<Record<string, string>> = { min: ', at least', max: ', at most' };

/** The name of a field of the form by its path; null for what only the file has. */
function fieldOf(path: string): string | null {
  if (path in FIELDS) return FIELDS[path as keyof typeof FIELDS];
  const [first, second = '', third] = path.split('.');
  if (first === 'targets') {
    const property = propertyById(second);
    return property === undefined ? null : `${property.name}${SIDES[third ?? ''] ?? ''}`;
  }
  if (first === 'mould' && (second === 'solid' || second === 'core') && third !== undefined)
    return `${second === 'core' ? 'Core' : 'Mould'}, ${third}`;
  if (first === 'amounts' && second !== '') return second.replaceAll('-', ' ');
  return null;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Prices are asked for where there are none: the page has a step for them. */
export const lacksPrices = ({ code }: Notice): boolean => code === 'price-list-missing';

/** What is wrong, for one who looks at the field or the form: without the place in the file. */
export function plainWords(notice: Notice): string {
  if (lacksPrices(notice))
    return 'A cost is asked for, and the shop has no prices to reckon it by. Add them on the Shelf.';
  const { message, file, line, path } = notice;
  const spot = [file, line === undefined ? '' : `line ${line}`].filter((part) => part).join(' ');
  const place = [spot, path].filter((part) => part).join(', ');
  return place !== '' && message.startsWith(`${place}: `) ? capital(message.slice(place.length + 2)) : message;
}

/** The field of the form that a problem of this file is about, and what is wrong there; else the command's own words. */
export function formWords(notice: Notice, form: string | undefined): { field: string | null; text: string } {
  const field = form !== undefined && notice.file === form && notice.path !== undefined ? fieldOf(notice.path) : null;
  return field === null && !lacksPrices(notice) ? { field, text: notice.message } : { field, text: plainWords(notice) };
}

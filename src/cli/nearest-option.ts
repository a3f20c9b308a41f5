import { nearestWord } from '../core/problems/nearest.js';
import { nameOf } from './verb.js';
import { VERBS } from './verbs.js';

/** Commander suggests near verbs and options by itself; a verb it does not come near to gets the list. */
export function nearestOption(message: string): string {
  if (message.includes('Did you mean')) return '';
  const verb = /unknown command '(.+?)'/.exec(message)?.[1];
  if (verb === undefined) return '. Add --help to see what is there';
  const names = VERBS.map(nameOf);
  const nearest = nearestWord(verb, names);
  return nearest === undefined ? `. Verbs: ${names.join(', ')}` : `. Did you mean ${nearest}?`;
}

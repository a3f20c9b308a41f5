import { LAST_DAY } from '../../core/blend/properties/index.js';
import type { WrittenRecipe } from '../../core/brief/schema.js';
import { refuse } from '../../core/problems/problem.js';
import type { Call } from '../verb.js';
import { wholeUpTo } from './whole-number.js';

type WithDays = Pick<WrittenRecipe, 'weigh-days'>;

/** The days of a brief or a recipe with those that --days adds; nothing when the option was not given. */
export function daysAsked(call: Call, written: WithDays): WithDays {
  const list = call.options['days'];
  if (list === undefined) return {};
  const days = String(list)
    .split(',')
    .map((word) => {
      const expected = `whole days from 1 to ${LAST_DAY}, such as 2,14`;
      return (
        wholeUpTo(word, LAST_DAY) ??
        refuse({ code: 'option-invalid', where: { path: '--days' }, found: String(list), expected })
      );
    });
  return { 'weigh-days': [...(written['weigh-days'] ?? []), ...days] };
}

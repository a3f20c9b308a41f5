import { propertyById } from '../blend/properties/index.js';
import { type Side, sidesOf, withSides } from './back-off.js';
import type { Aim } from './objective.js';
import type { Question } from './question.js';

/** A question without one side of its targets, and where that side comes from there. */
interface GivenUp {
  /** All the other sides as they are. */
  readonly others: Question;
  /** As near to the side that was given up as a blend can come. */
  readonly reach: Aim;
}

/** One side of the targets given up by itself, to see how far it can come with all the others kept. */
export function givenUp(question: Question, { target, side }: Side): GivenUp {
  const { targets } = question;
  const others = sidesOf(targets).filter((s) => s.target !== target || s.side !== side);
  return {
    others: { ...question, targets: withSides(targets, others) },
    reach: { property: propertyById(target.property)!, sense: side === 'max' ? 'min' : 'max' },
  };
}

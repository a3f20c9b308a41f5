import type { FirstAidLine } from './caution.js';
import { cite } from './cite.js';
import type { DocumentKey } from './documents.js';

const line = (when: string, act: string, from: readonly DocumentKey[]): FirstAidLine => ({ when, act, ...cite(from) });

/** Short, and the same for every blend and region, so that it is known by heart. Read-only data. */
export const FIRST_AID: readonly FirstAidLine[] = [
  line(
    'In an eye',
    'Rinse at once with running water for 20 minutes, lids held open, contact lenses out. Then always see a doctor.',
    ['icsc-0408', 'first-aid-memory'],
  ),
  line(
    'On skin',
    'Take off splashed clothes, gloves, rings. Brush dry powder off first. Rinse with running water for 20 minutes; ' +
      'water only, no vinegar or other acid. See a doctor if skin stays sore, red, white or numb.',
    ['nhs-burns', 'first-aid-memory'],
  ),
  line(
    'Burnt or caught by a setting cast',
    'Get the part out at once if you can, cool it under running water for 20 minutes. If it is stuck, call the emergency number now.',
    ['first-aid-memory'],
  ),
  line('Breathed in', 'Go into fresh air. See a doctor if coughing or tightness lasts.', [
    'icsc-0408',
    'first-aid-memory',
  ]),
  line('Swallowed', 'Rinse the mouth. Do not cause vomiting. Call a poison centre or the emergency number.', [
    'icsc-0408',
    'first-aid-memory',
  ]),
  line('Always', 'Take the bag or its safety data sheet with you.', ['common-practice']),
];

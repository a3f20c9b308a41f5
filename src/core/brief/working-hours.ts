/** Monday first, as ISO 8601 counts them. */
export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

/** When a maker works, where the shop says. */
export interface WorkingHours {
  /** h a day. */
  readonly hours: number | null;
  readonly weekdays: readonly Weekday[] | null;
}

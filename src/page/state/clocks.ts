/** A clock started when powder met water. Times are the page's, in milliseconds. */
export interface Clock {
  readonly id: string;
  readonly title: string;
  readonly started: number;
  readonly bells: readonly Bell[];
}

export interface Bell {
  readonly id: string;
  readonly name: string;
  /** ms after the start. */
  readonly after: number;
  readonly rung: boolean;
}

const MINUTE = 60_000;

export const inMs = (value: number, unit: 'min' | 'h'): number => value * MINUTE * (unit === 'h' ? 60 : 1);

/** "12:05", "1:02:33", "2 d 03 h"; negative times read "since". */
export function clockText(ms: number): string {
  const total = Math.floor(Math.abs(ms) / 1000);
  const [days, h, m, s] = [
    Math.floor(total / 86400),
    Math.floor(total / 3600) % 24,
    Math.floor(total / 60) % 60,
    total % 60,
  ];
  const two = (n: number): string => String(n).padStart(2, '0');
  if (days > 0) return `${days} d ${two(h)} h`;
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}

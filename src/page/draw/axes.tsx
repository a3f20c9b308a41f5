import type { roundTicks } from '../../core/index.js';

type Tick = ReturnType<typeof roundTicks>[number];

/** The box that a drawing's axes leave, in its own units. */
export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
}

/** Lines across the drawing at round values, named on the left. */
export const Levels = ({ ticks, at, frame }: { ticks: readonly Tick[]; at: (v: number) => number; frame: Frame }) => (
  <>
    {ticks.map((t) => (
      <g key={t.text}>
        <path class="grid" d={`M${frame.left} ${at(t.value)}H${frame.right}`} />
        <text class="tick" x={frame.left - 5} y={at(t.value) + 3.5} text-anchor="end">
          {t.text}
        </text>
      </g>
    ))}
  </>
);

/** Values named along the foot of the drawing, and what they are. */
export const Foot = ({
  ticks,
  at,
  frame,
  name,
}: {
  ticks: readonly Tick[];
  at: (v: number) => number;
  frame: Frame;
  name: string;
}) => (
  <>
    {ticks.map((t) => (
      <text key={t.text} class="tick" x={at(t.value)} y={frame.bottom + 15} text-anchor="middle">
        {t.text}
      </text>
    ))}
    <text class="tick" x={frame.right} y={frame.bottom + 31} text-anchor="end">
      {name}
    </text>
  </>
);

/** Plain numbers as ticks. */
export const plainTicks = (values: readonly number[]): Tick[] =>
  values.map((value) => ({ value, text: String(value) }));

/** The grain of each kind of material, laid over its tone; told apart without colour too. */

const INK = 'rgba(30, 26, 20, 0.42)';
const PALE = 'rgba(255, 255, 255, 0.65)';

export function Grains({ id, kind }: { readonly id: string; readonly kind: string }) {
  const { size, shapes } = GRAINS[kind] ?? GRAINS.doses!;
  return (
    <pattern id={id} width={size} height={size} patternUnits="userSpaceOnUse">
      {shapes()}
    </pattern>
  );
}

const dot = (x: number, y: number, r: number, fill = INK) => <circle cx={x} cy={y} r={r} fill={fill} />;
const stroke = (d: string, width = 0.6, colour = INK) => (
  <path d={d} fill="none" stroke={colour} stroke-width={width} />
);
const ring = (x: number, y: number, r: number) => (
  <circle cx={x} cy={y} r={r} fill="none" stroke={INK} stroke-width="0.6" />
);

const GRAINS: Readonly<Record<string, { size: number; shapes: () => preact.JSX.Element }>> = {
  sand: {
    size: 9,
    shapes: () => (
      <g>
        {dot(1.6, 1.8, 0.9)}
        {dot(6.2, 3.4, 0.7)}
        {dot(3.2, 6.6, 0.8)}
        {dot(7.6, 7.4, 0.5)}
        {dot(4.4, 1, 0.5, PALE)}
      </g>
    ),
  },
  filler: { size: 5, shapes: () => stroke('M2.5 0V5', 0.4) },
  cement: { size: 6, shapes: () => stroke('M0 6L6 0', 0.6) },
  gypsum: { size: 7, shapes: () => stroke('M1 2H4M4 5.5H7', 0.5) },
  lime: { size: 8, shapes: () => stroke('M0 2H4M4 6H8', 0.5) },
  pozzolan: { size: 6, shapes: () => stroke('M0 0L6 6M0 6L6 0', 0.45) },
  pigment: { size: 4, shapes: () => dot(2, 2, 0.7, PALE) },
  polymer: { size: 10, shapes: () => stroke('M0 3Q2.5 0.5 5 3T10 3M0 8Q2.5 5.5 5 8T10 8', 0.6) },
  admixture: { size: 4, shapes: () => dot(2, 2, 0.6) },
  fibre: { size: 12, shapes: () => stroke('M1 2L6 4M8 9L10 4M3 11L6 8', 0.7) },
  'light-aggregate': {
    size: 13,
    shapes: () => (
      <g>
        {ring(4, 4, 2.8)}
        {ring(10, 9, 2.2)}
        {ring(3.6, 10.6, 1.4)}
      </g>
    ),
  },
  water: { size: 12, shapes: () => stroke('M0 4Q3 1.5 6 4T12 4M0 10Q3 7.5 6 10T12 10', 0.6, PALE) },
  air: { size: 10, shapes: () => ring(5, 5, 1) },
  doses: { size: 4, shapes: () => stroke('M0 2H4', 0.8) },
};

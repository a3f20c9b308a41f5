/** The look of each material in drawings: near the thing itself, the same by day and by night. */

const KIND_TONES: Readonly<Record<string, string>> = {
  cement: '#8b8d8a',
  gypsum: '#efe8db',
  lime: '#dfdcc4',
  pozzolan: '#6b7479',
  filler: '#d9c9ae',
  sand: '#cda766',
  'light-aggregate': '#f6f3ec',
  admixture: '#7fa28e',
  polymer: '#b3c3d6',
  pigment: '#7b4a3a',
  fibre: '#d5cbe0',
  water: '#93bccb',
  air: '#ffffff',
  doses: '#9a8a76',
};

const OWN_TONES: readonly (readonly [RegExp, string])[] = [
  [/white.*cement|cement.*white/, '#cfd0cc'],
  [/csa/, '#b3ab98'],
  [/silica-fume/, '#575c60'],
  [/metakaolin/, '#e7c9b4'],
  [/fly-ash/, '#97999b'],
  [/marble/, '#e6e2dc'],
  [/red/, '#9c3b25'],
  [/yellow/, '#cf9d30'],
  [/brown/, '#6d4630'],
  [/black/, '#2c2b2a'],
  [/green/, '#4c7b4f'],
  [/ultramarine|blue/, '#2f43a3'],
  [/titanium|white/, '#f8f7f4'],
];

/** `ids` are the materials of one layer; a second material of a kind is drawn a shade apart. */
export function toneOf(kind: string, ids: readonly string[], nth = 0): string {
  const own = ids.length === 1 ? OWN_TONES.find(([word]) => word.test(ids[0]!))?.[1] : undefined;
  return shade(own ?? KIND_TONES[kind] ?? '#999999', nth * -0.12);
}

function shade(hex: string, by: number): string {
  if (by === 0) return hex;
  const part = (at: number): string => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16);
    return Math.round(Math.max(0, Math.min(255, value * (1 + by))))
      .toString(16)
      .padStart(2, '0');
  };
  return `#${part(1)}${part(3)}${part(5)}`;
}

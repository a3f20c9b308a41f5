import { isGap } from './gap.js';
import type { Material } from './schema.js';
import type { Kind } from './words.js';

/** Whether the sulfate of a kind of material takes part: that of pozzolans, sands and pigments stays where it is. */
export const givesSulfate = ({ kind }: { readonly kind: Kind }): boolean =>
  kind === 'cement' || kind === 'gypsum' || kind === 'admixture' || kind === 'filler';

/** Least SO3 [percent] by which a material counts as a sulfate; less is a trace in something else. Ours. */
const A_SULFATE = 10;

/** SO3 that a material adds to a cement [g/g as weighed]; 0 for cements, which are made with theirs. */
export function addedSo3(material: Material): number {
  const { so3, kind } = material;
  if (kind === 'cement' || !givesSulfate(material) || so3 === undefined || isGap(so3)) return 0;
  return so3.value >= A_SULFATE ? so3.value / 100 : 0;
}

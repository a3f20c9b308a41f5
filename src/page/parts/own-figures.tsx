import { type AssessmentResult, ownFigureWords } from '../../core/index.js';

/** Which figures are the shop's own, learned from its pours, wherever a blend is told. */
export function OwnFigures({ own }: { readonly own: AssessmentResult['ownFigures'] }) {
  const words = ownFigureWords(own);
  return words === null ? null : <p class="hint own-figures">{words}</p>;
}

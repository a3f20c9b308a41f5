import { fillsWords, printBatch, printFine, printMoney, scoopsOf, significant, volumeWords } from '../../core/index.js';
import { tonesOf } from '../draw/bands.js';
import type { Told } from '../worker/told.js';
import { isProposal, wordingOf } from './words.js';

/** What to weigh out: for one piece and for the batch, with parts, loose volume, scoops and cost beneath. */
export function BlendTable({ told, name = 'The blend' }: { readonly told: Told; readonly name?: string }) {
  const { result, costs } = told;
  const wording = wordingOf(told);
  const tones = tonesOf(told);
  const { system } = told;
  const { pieces, step } = result.batch;
  const parts = isProposal(result) ? result.parts : null;
  const fills = told.draft || !isProposal(result) ? null : fillsWords(result);
  const whole = Number.isInteger(pieces) ? `${pieces}` : significant(pieces, 3).toString();
  return (
    <table class="blend">
      <caption class="unseen">{name}</caption>
      <thead>
        <tr>
          <th scope="col">material</th>
          <th scope="col">one piece</th>
          <th scope="col">
            weigh out{pieces === 1 ? '' : ` for ${whole}`}
            {fills !== null && <small>{fills}</small>}
          </th>
        </tr>
      </thead>
      <tbody>
        {result.blend.map((i) => {
          const cost = costs[i.material];
          const also = [
            `${significant(i.partsByMass, 3)} parts`,
            ...(i.litres === null
              ? []
              : [`${volumeWords(i, parts, system)} ${i.kind === 'water' ? '' : 'loose'}`.trim()]),
            ...(i.scoops === null ? [] : [`${scoopsOf(i, parts)} scoops`]),
            ...(cost == null || cost === 0 || wording.currency === null
              ? []
              : [printMoney(cost.toFixed(4), wording.currency, 3)]),
          ];
          return (
            <tr key={i.material}>
              <th scope="row">
                <svg class="chip" viewBox="0 0 10 10" aria-hidden="true">
                  <rect width="10" height="10" rx="2" fill={tones.get(i.material) ?? '#999'} />
                </svg>
                <span>
                  {i.name}
                  <small>{also.join(' · ')}</small>
                </span>
              </th>
              <td>{printFine(i.pieceGrams, step, system)}</td>
              <td>
                <b>{told.draft ? printFine(i.batchGrams, step, system) : printBatch(i, step, system)}</b>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

import { limitWords, type ProposalResult, partsWords, type Wording } from '../../core/index.js';

/** What limits on ingredients and whole-number parts made of the blend. */
export function Choices({ result, wording }: { readonly result: ProposalResult; readonly wording: Wording }) {
  const parts = partsWords(result, wording);
  const limit = limitWords(result, wording);
  return (
    <>
      {parts !== null && (
        <div class="parts">
          {parts.by !== null && (
            <p class="lead">
              <b>in parts {parts.by}:</b> {parts.numbers}
            </p>
          )}
          {parts.lines.map((line) => (
            <p class="hint" key={line}>
              {line}
            </p>
          ))}
        </div>
      )}
      {limit !== null && <p class="hint">{limit}</p>}
    </>
  );
}

import {
  type AssessmentResult,
  chanceWords,
  isTold,
  marginWords,
  printBeside,
  printWindow,
  type VerdictResult,
  type Wording,
} from '../../core/index.js';

/** Each target with its window, what the blend has, how much is to spare and the chance. */
export function Verdicts({
  verdicts,
  properties,
  wording,
}: {
  readonly verdicts: readonly VerdictResult[];
  readonly properties: AssessmentResult['properties'];
  readonly wording: Wording;
}) {
  if (verdicts.length === 0) return <p class="hint">No targets yet. Set one, and the blend answers at once.</p>;
  return (
    <ul class="verdicts">
      {verdicts.map((v) => {
        const why = properties.find((p) => p.property === v.property)?.why ?? null;
        const spare =
          v.margin === null
            ? isTold({ value: null, why })
              ? ''
              : (why ?? 'no such property')
            : `${v.met ? '' : 'missed '}${marginWords(v, wording)}`;
        return (
          <li key={v.property} class={v.met ? 'met' : 'missed'}>
            <b class="mark">{v.met ? 'met' : 'missed'}</b>
            <span class="what">
              {v.name} <small>{printWindow(v.property, v.min, v.max, wording)}</small>
            </span>
            <span class="has">{printBeside(v, why, wording)}</span>
            <span class="spare">{[spare, chanceWords(v.chance)].filter((part) => part !== '').join(', ')}</span>
          </li>
        );
      })}
    </ul>
  );
}

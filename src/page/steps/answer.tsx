import {
  barred,
  chanceWords,
  mouldCount,
  printToldOf,
  propertyById,
  type Wording,
  wasteTakenOff,
} from '../../core/index.js';
import { Mould } from '../draw/mould.js';
import { BlendTable } from '../parts/blend-table.js';
import { Choices } from '../parts/choices.js';
import { Warnings } from '../parts/notices.js';
import { OwnFigures } from '../parts/own-figures.js';
import { Stops } from '../parts/stops.js';
import { Verdicts } from '../parts/verdicts.js';
import { isProposal } from '../parts/words.js';
import { type Bench, update } from '../state/bench.js';
import type { Told } from '../worker/told.js';

const take = (chosen: Bench['chosen'], step: Bench['step']): void => {
  update({ chosen });
  location.hash = step;
};

/** "As written it fills 2.4 moulds, 6 % waste taken off." */
function fillsOf({ result }: Told): string | null {
  if (isProposal(result) || result.fills === null) return null;
  const { pieces, waste } = result.batch;
  return `as written it fills ${mouldCount(pieces)}${wasteTakenOff(waste)}`;
}

function verdictOf(result: Told['result']): string {
  if (barred(result)) return 'Do not cast this';
  const nearest = isProposal(result) && result.status !== 'met';
  if (nearest) return 'Nearest blend';
  if (!result.met) return 'Misses a target';
  return result.targets.length === 0 ? 'A blend' : 'All targets met';
}

interface AnswerProps {
  readonly told: Told;
  readonly wording: Wording;
  readonly busy: boolean;
  readonly stale: boolean;
}

/** The blend: drawing, verdict, what to weigh. */
export function Answer({ told, wording, busy, stale }: AnswerProps) {
  const { result } = told;
  const met = isProposal(result) ? result.status === 'met' : result.met;
  const system = isProposal(result) ? result.systems.find((s) => s.system === result.system)?.name : undefined;
  const aim = isProposal(result)
    ? `${result.objective.aim}: ${propertyById(result.objective.property)!.name} ${printToldOf(result, result.objective.property, result.objective.weighed, wording)}`
    : null;
  const fills = fillsOf(told);
  return (
    <section class={`hero${stale ? ' stale' : ''}`} aria-label="The blend">
      <header>
        <p class="eyebrow">
          {[
            ...(result.invented ? ['invented example'] : []),
            ...(system === undefined ? [] : [system]),
            `${result.piece.service} service`,
          ].join(' · ')}
        </p>
        <h1>{result.title}</h1>
        <p class={`verdict ${met && !barred(result) ? 'met' : 'missed'}`}>
          <b>{verdictOf(result)}</b>
          {aim !== null && <span>{aim}</span>}
          {fills !== null && <span>{fills}</span>}
          <span class="sure">
            {stale
              ? 'the last blend that could be read'
              : busy || told.draft
                ? 'settling…'
                : result.jointChance === null
                  ? ''
                  : `all at once: ${chanceWords(result.jointChance)}`}
          </span>
        </p>
      </header>
      <Stops set={result.cautions} />
      <Warnings of={result.warnings} />
      <OwnFigures own={result.ownFigures} />
      <Mould told={told} />
      <Verdicts verdicts={result.targets} properties={result.properties} wording={wording} />
      <BlendTable told={told} />
      {isProposal(result) && <Choices result={result} wording={wording} />}
      <div class="row wrap onward">
        <button type="button" class="button main" onClick={() => take(isProposal(result) ? 'brief' : 'recipe', 'card')}>
          Weigh it out
        </button>
        <button type="button" class="button" onClick={() => take(isProposal(result) ? 'brief' : 'recipe', 'price')}>
          Price a piece
        </button>
      </div>
    </section>
  );
}

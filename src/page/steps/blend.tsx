import type { AssessmentResult, ProposalResult, Wording } from '../../core/index.js';
import { systemWords } from '../../core/index.js';
import { Costs } from '../draw/costs.js';
import { Curve } from '../draw/curve.js';
import { Cautions } from '../parts/cautions.js';
import { Conflict } from '../parts/conflict.js';
import { Expect } from '../parts/expect.js';
import { Field, Fold } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { Risks } from '../parts/risks.js';
import { isProposal, shownOf, wordingOf } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import type { Bench } from '../state/bench.js';
import { dataOf, textField } from '../state/edit.js';
import { editField, editFields, saveAs } from '../state/files.js';
import { Answer } from './answer.js';
import { FrontierPart } from './frontier.js';
import { LimitsForm } from './limits-form.js';
import { MouldForm } from './mould-form.js';
import { OtherBlends } from './others.js';
import { Paper } from './paper.js';
import { PieceForm } from './piece-form.js';
import { ReasonsPart } from './reasons.js';
import { ShelfChoice } from './shelf-choice.js';
import { SurePart } from './sure.js';
import { TargetsForm } from './targets-form.js';
import { WaysOut } from './ways-out.js';

/** From a brief to a blend, live: the answer on one side, what is asked on the other; on a phone the mould comes first. */
export function BlendStep({ bench }: { readonly bench: Bench }) {
  const file = bench.brief!;
  const text = bench.folder[file] ?? '';
  const data = dataOf(text);
  const { told: answer, problems } = bench;
  const told = shownOf(answer);
  const wording = wordingOf(told);
  const proposal = answer !== null && !answer.draft && !bench.busy && isProposal(answer.result) ? answer.result : null;
  const stuck = proposal?.conflict != null;
  const ways = useAnswer('ways-out', 'waysOut', bench.folder, stuck ? { file, system: proposal.system } : null);
  const whole = proposal === null || !stuck ? proposal : ways.busy ? null : { ...proposal, waysOut: ways.value };
  return (
    <div class="bench">
      {data !== null && (
        <div class="asked begin">
          <section class="group">
            <Field
              label="Name of the piece"
              value={textField(data, ['title'])}
              hint="untitled brief"
              onEdit={(t) => editField(file, ['title'], t)}
            />
          </section>
          <MouldForm
            file={file}
            data={data}
            problems={problems}
            volume={told?.result.piece.volume ?? null}
            system={wording.system}
          />
        </div>
      )}
      <div class="answer">
        {told === null ? (
          <p class="wait">{problems.length > 0 ? 'No blend yet: the brief cannot be read.' : 'Looking for a blend…'}</p>
        ) : (
          <Answer told={told} busy={bench.busy} wording={wording} stale={problems.length > 0} />
        )}
        <Notices problems={problems} title="What to put right" form={file} />
      </div>
      <div class="asked">
        {data === null ? (
          <p class="hint">The file is not readable YAML just now; put it right below.</p>
        ) : (
          <>
            {told !== null && isProposal(told.result) && (
              <Conflict
                result={told.result}
                wording={wording}
                draft={told.draft || bench.busy}
                onRelax={(changes) =>
                  editFields(
                    file,
                    changes.map((c) => [['targets', c.property, c.side], c.text] as const),
                  )
                }
              >
                {ways.value !== null && !ways.busy && (
                  <WaysOut file={file} data={data} ways={ways.value} wording={wording} />
                )}
                {stuck && ways.busy && <p class="hint">Looking for the least that would have to give way…</p>}
              </Conflict>
            )}
            <TargetsForm file={file} data={data} told={told} wording={wording} problems={problems} />
            <PieceForm file={file} data={data} problems={problems} kind="brief" />
            <LimitsForm file={file} data={data} problems={problems} />
            <ShelfChoice file={file} data={data} told={told} />
          </>
        )}
        <Paper file={file} text={text} name="The brief" />
      </div>
      {told !== null && (
        <div class="details">
          <div class="charts">
            <Curve told={told} />
            <Costs told={told} />
          </div>
          <SurePart key={`sure ${file}`} bench={bench} />
          <ReasonsPart key={`reasons ${file}`} bench={bench} proposal={proposal} wording={wording} />
          <FrontierPart
            key={`frontier ${file}`}
            bench={bench}
            wording={wording}
            priced={Object.values(told.costs).some((c) => c !== null && c > 0)}
          />
          <OtherBlends key={file} bench={bench} wording={wording} />
          <OtherSystems result={told.result} wording={wording} />
          <Expect result={told.result} wording={wording} />
          <Risks risks={told.result.risks} />
          <Cautions set={told.result.cautions} full={bench.fullCautions} />
          <Fold name="This result as JSON">
            <p class="hint">The same object as pourwright propose --json prints.</p>
            <button
              type="button"
              class="button"
              disabled={whole === null}
              onClick={() => saveAs('proposal.json', `${JSON.stringify(whole, null, 2)}\n`, 'application/json')}
            >
              Save proposal.json
            </button>
          </Fold>
        </div>
      )}
    </div>
  );
}

function OtherSystems({
  result,
  wording,
}: {
  readonly result: AssessmentResult | ProposalResult;
  readonly wording: Wording;
}) {
  if (!isProposal(result)) return null;
  const rows = result.systems.filter((s) => s.system !== result.system && s.outcome !== 'absent');
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="others-title">
      <h2 id="others-title">Other binders</h2>
      <dl class="expect">
        {rows.map((s) => (
          <div key={s.system}>
            <dt>{s.name}</dt>
            <dd>
              {s.outcome === 'possible' ? (
                systemWords(s, result.objective.property, wording)
              ) : (
                <small>{systemWords(s, result.objective.property, wording)}</small>
              )}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

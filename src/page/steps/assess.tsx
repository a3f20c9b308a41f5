import { Costs } from '../draw/costs.js';
import { Curve } from '../draw/curve.js';
import { Cautions } from '../parts/cautions.js';
import { Expect } from '../parts/expect.js';
import { Field, Fold } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { Risks } from '../parts/risks.js';
import { useWords } from '../parts/units.js';
import { shownOf, wordingOf } from '../parts/words.js';
import type { Bench } from '../state/bench.js';
import { dataOf, fieldOf, textField } from '../state/edit.js';
import { editField, saveAs } from '../state/files.js';
import { Amounts } from './amounts.js';
import { Answer } from './answer.js';
import { MouldForm } from './mould-form.js';
import { Paper } from './paper.js';
import { PieceForm } from './piece-form.js';
import { TargetsForm } from './targets-form.js';

/** A recipe of the maker's own: what it will give, and what is wrong with it. */
export function AssessStep({ bench }: { readonly bench: Bench }) {
  const words = useWords();
  const file = bench.recipe!;
  const text = bench.folder[file] ?? '';
  const data = dataOf(text);
  const { assessed: answer, assessProblems: problems } = bench;
  const told = shownOf(answer);
  const wording = wordingOf(told);
  const hasMould = fieldOf(data, ['mould']) !== undefined;
  return (
    <div class="bench">
      {data !== null && (
        <div class="asked begin">
          <section class="group" aria-labelledby="recipe-title">
            <h2 id="recipe-title">Recipe</h2>
            <Field
              label="Name"
              value={textField(data, ['title'])}
              hint="untitled recipe"
              onEdit={(t) => editField(file, ['title'], t)}
            />
            <Amounts file={file} data={data} path={[]} problems={problems} />
          </section>
        </div>
      )}
      <div class="answer">
        {told === null ? (
          <p class="wait">{problems.length > 0 ? 'The recipe cannot be read yet.' : 'Working it out…'}</p>
        ) : (
          <Answer told={told} busy={false} wording={wording} stale={problems.length > 0} />
        )}
        <Notices problems={problems} title="What to put right" form={file} />
      </div>
      <div class="asked">
        {data === null ? (
          <p class="hint">The file is not readable YAML just now; put it right below.</p>
        ) : (
          <>
            {hasMould ? (
              <MouldForm
                file={file}
                data={data}
                problems={problems}
                volume={told?.result.piece.volume ?? null}
                system={wording.system}
              />
            ) : (
              <section class="group">
                <p>No mould: the recipe is told as one batch.</p>
                <button
                  type="button"
                  class="button"
                  onClick={() => editField(file, ['mould'], { water: words('⟦250 mL|8 fl oz⟧') })}
                >
                  Say how big the mould is
                </button>
              </section>
            )}
            <TargetsForm file={file} data={data} told={told} wording={wording} problems={problems} />
            <PieceForm file={file} data={data} problems={problems} kind="recipe" />
          </>
        )}
        <Paper file={file} text={text} name="The recipe" />
      </div>
      {told !== null && (
        <div class="details">
          <div class="charts">
            <Curve told={told} />
            <Costs told={told} />
          </div>
          <Expect result={told.result} wording={wording} />
          <Risks risks={told.result.risks} />
          <Cautions set={told.result.cautions} full={bench.fullCautions} />
          <Fold name="This result as JSON">
            <p class="hint">The same object as pourwright assess --json prints.</p>
            <button
              type="button"
              class="button"
              onClick={() =>
                saveAs('assessment.json', `${JSON.stringify(answer!.result, null, 2)}\n`, 'application/json')
              }
            >
              Save assessment.json
            </button>
          </Fold>
        </div>
      )}
    </div>
  );
}

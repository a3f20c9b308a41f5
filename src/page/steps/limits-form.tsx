import { MOST_PARTS, PARTS_BY } from '../../core/index.js';
import { Field, Pills, problemAt } from '../parts/field.js';
import { FIELDS } from '../parts/notice-words.js';
import { fieldOf, textField } from '../state/edit.js';
import { editField, editFields } from '../state/files.js';
import type { Notice } from '../worker/notice.js';

interface LimitsProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly problems: readonly Notice[];
}

/** How many ingredients a blend may have, and how little of one: `limits` of a brief or of a medium's description. */
export function LimitFields({ file, data, problems }: LimitsProps) {
  return (
    <div class="fields">
      <Field
        label={FIELDS['limits.ingredients']}
        mode="numeric"
        value={textField(data, ['limits', 'ingredients'])}
        hint="any number"
        problem={problemAt(problems, 'limits.ingredients')}
        onEdit={(t) => editField(file, ['limits', 'ingredients'], t)}
      />
      <Field
        label={FIELDS['limits.least-dose']}
        value={textField(data, ['limits', 'least-dose'])}
        hint="5 scale steps"
        problem={problemAt(problems, 'limits.least-dose')}
        onEdit={(t) => editField(file, ['limits', 'least-dose'], t)}
      />
    </div>
  );
}

const PARTS_WORDS: Readonly<Record<string, string>> = { mass: 'by weight', scoop: 'by scoop' };

/** `parts` of a brief: the bulk in whole numbers, as a word or with the largest of them. */
function PartFields({ file, data, problems }: LimitsProps) {
  const by = textField(data, ['parts']) || textField(data, ['parts', 'by']);
  const most = textField(data, ['parts', 'most']);
  const asked = fieldOf(data, ['parts']) !== undefined;
  const setMost = (text: string): void => {
    if (text.trim() === '') editField(file, ['parts'], by);
    else
      editFields(file, [
        ...(typeof fieldOf(data, ['parts']) === 'object' ? [] : [[['parts'], { by }] as const]),
        [['parts', 'most'], text],
      ]);
  };
  const pick = (value: string): void => {
    if (value !== '' && most !== '') editField(file, ['parts', 'by'], value);
    else editField(file, ['parts'], value);
  };
  return (
    <>
      <Pills
        legend="Told in whole-number parts too"
        value={by}
        options={[
          { value: '', text: 'no' },
          ...PARTS_BY.map((value) => ({ value, text: PARTS_WORDS[value] ?? value })),
        ]}
        onPick={pick}
      />
      {asked && (
        <div class="fields">
          <Field
            label={FIELDS['parts.most']}
            mode="numeric"
            value={most}
            hint={String(MOST_PARTS)}
            problem={problemAt(problems, 'parts.most') ?? problemAt(problems, 'parts')}
            onEdit={setMost}
          />
        </div>
      )}
    </>
  );
}

/** What keeps a blend easy to weigh out. */
export function LimitsForm(props: LimitsProps) {
  return (
    <section class="group" aria-labelledby="limits-title">
      <h2 id="limits-title">Weighing out</h2>
      <LimitFields {...props} />
      <PartFields {...props} />
    </section>
  );
}

import { FINISHINGS, MOULD_STUFFS, OBJECTIVES, PEOPLE, POURS, SERVICES, USES } from '../../core/index.js';
import { Choice, Field, Fold, Pills, problemAt, Ticks } from '../parts/field.js';
import { FIELDS } from '../parts/notice-words.js';
import { OBJECTIVE_WORDS, SERVICE_WORDS, spaced } from '../parts/words.js';
import { fieldOf, listField, textField } from '../state/edit.js';
import { editField } from '../state/files.js';
import { shippedMaterials } from '../state/shipped.js';
import type { Notice } from '../worker/notice.js';

interface PieceFormProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly problems: readonly Notice[];
  readonly kind: 'brief' | 'recipe';
}

const words = (list: readonly string[], names: Readonly<Record<string, string>> = {}) =>
  list.map((value) => ({ value, text: names[value] ?? spaced(value) }));

/** "2, 14" as a list; what is no number stays as typed, so that it can be told; nothing typed is no list. */
function daysIn(typed: string): (number | string)[] | undefined {
  const words = typed.split(/[,\s]+/).filter((word) => word !== '');
  return words.length === 0 ? undefined : words.map((word) => (Number.isNaN(Number(word)) ? word : Number(word)));
}

/** What the piece is for, and how it is cast. */
export function PieceForm({ file, data, problems, kind }: PieceFormProps) {
  const set = (path: readonly string[]) => (value: string) => editField(file, path, value);
  const text = (path: keyof typeof FIELDS, hint: string) => (
    <Field
      label={FIELDS[path]}
      value={textField(data, path.split('.'))}
      hint={hint}
      problem={problemAt(problems, path)}
      onEdit={set(path.split('.'))}
    />
  );
  const weighDays = fieldOf(data, ['weigh-days']);
  return (
    <section class="group" aria-labelledby="piece-title">
      <h2 id="piece-title">Piece</h2>
      {kind === 'brief' && (
        <Pills
          legend="Of all blends that meet the targets, the"
          value={textField(data, ['objective'])}
          options={words(OBJECTIVES, OBJECTIVE_WORDS)}
          onPick={set(['objective'])}
        />
      )}
      <Pills
        legend="Where it will stand"
        value={textField(data, ['service']) || 'dry-indoor'}
        options={words(SERVICES, SERVICE_WORDS)}
        onPick={set(['service'])}
      />
      {kind === 'brief' && (
        <div class="fields">
          <Field
            label={FIELDS['batch.pieces']}
            mode="numeric"
            value={textField(data, ['batch', 'pieces'])}
            hint="1"
            problem={problemAt(problems, 'batch.pieces')}
            onEdit={set(['batch', 'pieces'])}
          />
          {text('batch.waste', 'the shop’s')}
        </div>
      )}
      <Ticks
        legend="It is for"
        options={words(USES)}
        values={listField(data, ['uses'])}
        onPick={(v) => editField(file, ['uses'], v.length === 0 ? undefined : v)}
      />
      {kind === 'brief' && <Colour file={file} data={data} problems={problems} />}
      <Fold name="How it is cast, the room, who is near">
        <Pills
          legend="Poured"
          value={textField(data, ['pour']) || 'poured'}
          options={words(POURS, { poured: 'only poured' })}
          onPick={set(['pour'])}
        />
        <div class="fields">
          {text('wall', '⟦12 mm|1/2 in⟧')}
          {text('room.temperature', 'the shop’s')}
          {text('room.humidity', 'the shop’s')}
          {text('cover', 'as usual for the binder')}
          {text('strength-age', '28 days')}
          <Field
            label="Days whose weight is told too"
            value={(Array.isArray(weighDays) ? weighDays : []).join(', ')}
            hint="such as 2, 14"
            problem={problems.find((p) => p.path?.startsWith('weigh-days'))}
            onEdit={(typed) => editField(file, ['weigh-days'], daysIn(typed))}
          />
        </div>
        <div class="fields">
          <Choice
            label="Finish"
            value={textField(data, ['finish']) || 'none'}
            options={words(FINISHINGS)}
            onPick={set(['finish'])}
          />
          <Choice
            label="The mould is made of"
            value={textField(data, ['mould-stuff']) || 'silicone'}
            options={words(MOULD_STUFFS)}
            onPick={set(['mould-stuff'])}
          />
        </div>
        <Ticks
          legend="In the room"
          options={words(PEOPLE, {
            'child-present': 'a child',
            pregnant: 'someone pregnant',
            asthma: 'someone with asthma',
          })}
          values={listField(data, ['people'])}
          onPick={(v) => editField(file, ['people'], v.length === 0 ? undefined : v)}
        />
        <Ticks
          legend="Touching the wet mix"
          options={[{ value: 'yes', text: 'bare aluminium' }]}
          values={fieldOf(data, ['aluminium-parts']) === true ? ['yes'] : []}
          onPick={(v) => editField(file, ['aluminium-parts'], v.length === 0 ? undefined : true)}
        />
      </Fold>
    </section>
  );
}

function Colour({ file, data, problems }: Omit<PieceFormProps, 'kind'>) {
  const pigment = textField(data, ['colour', 'pigment']);
  const pigments = shippedMaterials().filter((m) => m.kind === 'pigment');
  return (
    <div class="fields">
      <Choice
        label="Colour"
        value={pigment}
        options={[{ value: '', text: 'none' }, ...pigments.map((p) => ({ value: p.id, text: p.name }))]}
        onPick={(id) =>
          editField(
            file,
            ['colour'],
            id === '' ? undefined : { pigment: id, share: textField(data, ['colour', 'share']) || '3 %' },
          )
        }
      />
      {pigment !== '' && (
        <Field
          label="Share of the binder"
          value={textField(data, ['colour', 'share'])}
          hint="3 %"
          problem={problemAt(problems, 'colour.share') ?? problemAt(problems, 'colour.pigment')}
          onEdit={(t) => editField(file, ['colour', 'share'], t)}
        />
      )}
    </div>
  );
}

import { PROPERTIES, printLimit, propertyById, significantShown, type Wording } from '../../core/index.js';
import { Choice } from '../parts/field.js';
import { useWords } from '../parts/units.js';
import { Window } from '../parts/window.js';
import { propertyOf } from '../parts/words.js';
import { fieldOf, textField } from '../state/edit.js';
import { editField } from '../state/files.js';
import type { Notice } from '../worker/notice.js';
import type { Told } from '../worker/told.js';

interface TargetsFormProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly told: Told | null;
  readonly wording: Wording;
  readonly problems: readonly Notice[];
}

/** Properties where less is better, so that a new target starts as an upper limit. */
const LESS = /weight|cost|water|time|set|temperature|density|volume|so3|sulfate/;

/** The windows a piece has to meet. */
export function TargetsForm({ file, data, told, wording, problems }: TargetsFormProps) {
  const words = useWords();
  const targets = (fieldOf(data, ['targets']) ?? {}) as Record<string, unknown>;
  const set = Object.keys(targets).filter((id) => propertyById(id) !== undefined);
  const free = PROPERTIES.filter((p) => !set.includes(p.id));
  const add = (id: string): void => {
    const property = propertyById(id);
    if (property === undefined) return;
    const value = told === null ? null : propertyOf(told.result, id);
    const side = LESS.test(id) && id !== 'working-time' ? 'max' : 'min';
    const text =
      value === null
        ? ''
        : printLimit(significantShown(value, 3, property.quantity, wording.system), property.quantity, wording);
    editField(file, ['targets', id], { [side]: text === '' ? words(FIRST[property.quantity]!) : text });
  };
  return (
    <section class="group" aria-labelledby="targets-title">
      <h2 id="targets-title">Targets</h2>
      <ul class="windows">
        {set.map((id) => (
          <Window
            key={id}
            property={id}
            min={textField(data, ['targets', id, 'min'])}
            max={textField(data, ['targets', id, 'max'])}
            told={told}
            wording={wording}
            problems={problems}
            onEdit={(side, text) => keepOne(file, data, id, side, text)}
            onRemove={() => editField(file, ['targets', id], undefined)}
          />
        ))}
      </ul>
      <Choice
        label="Add a target"
        value=""
        options={[{ value: '', text: 'choose a property…' }, ...free.map((p) => ({ value: p.id, text: p.name }))]}
        onPick={add}
      />
    </section>
  );
}

/** What a target begins with where the blend has no value; marked. */
const FIRST: Readonly<Record<string, string>> = {
  mass: '⟦300 g|10 oz⟧',
  volume: '⟦300 mL|10 fl oz⟧',
  density: '⟦1.8 g/cm3|110 lb/ft3⟧',
  ratio: '0.5',
  percent: '5 %',
  'set-time': '30 min',
  strength: '⟦15 MPa|2000 psi⟧',
  temperature: '⟦50 °C|120 °F⟧',
  money: '1.00',
};

/** A window that is opened on both sides stays, as an empty one would be refused: its last side is held. */
function keepOne(
  file: string,
  data: Record<string, unknown>,
  id: string,
  side: 'min' | 'max',
  text: string | undefined,
): void {
  const other = textField(data, ['targets', id, side === 'min' ? 'max' : 'min']);
  if ((text === undefined || text === '') && other === '') return;
  editField(file, ['targets', id, side], text);
}

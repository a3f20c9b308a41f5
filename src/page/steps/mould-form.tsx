import { printQuantity, type UnitSystem } from '../../core/index.js';
import { Field, Fold, Pills, problemAt } from '../parts/field.js';
import { FIELDS, plainWords } from '../parts/notice-words.js';
import { useWords } from '../parts/units.js';
import { fieldOf, textField } from '../state/edit.js';
import { editField, editFields } from '../state/files.js';
import type { Notice } from '../worker/notice.js';
import { Amounts } from './amounts.js';

type Way = 'water' | 'solid' | 'piece';
type Shape = 'box' | 'cylinder' | 'cone' | 'hexagon';

const SIDES: Readonly<Record<Shape, readonly string[]>> = {
  box: ['length', 'width', 'height'],
  cylinder: ['diameter', 'height'],
  cone: ['top', 'bottom', 'height'],
  hexagon: ['across', 'height'],
};

/** What a shape begins with; marked. */
const FIRST: Readonly<Record<Shape, Readonly<Record<string, string>>>> = {
  box: { length: '⟦12 cm|5 in⟧', width: '⟦8 cm|3 in⟧', height: '⟦4 cm|1 1/2 in⟧' },
  cylinder: { diameter: '⟦8 cm|3 in⟧', height: '⟦8 cm|3 in⟧' },
  cone: { top: '⟦10 cm|4 in⟧', bottom: '⟦8 cm|3 in⟧', height: '⟦8 cm|3 in⟧' },
  hexagon: { across: '⟦10 cm|4 in⟧', height: '⟦8 cm|3 in⟧' },
};

/** The sides a shape begins with, in the shop's units. */
function useSides(): (shape: Shape) => Record<string, string> {
  const words = useWords();
  return (shape) => Object.fromEntries(Object.entries(FIRST[shape]).map(([side, marked]) => [side, words(marked)]));
}

const SHAPES = (Object.keys(SIDES) as Shape[]).map((value) => ({ value, text: value }));

interface MouldFormProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly problems: readonly Notice[];
  /** cm3 as read; null: not known yet. */
  readonly volume: number | null;
  readonly system: UnitSystem;
}

/** The mould by what fills it, by its shape, or by the weight of an earlier piece. */
export function MouldForm({ file, data, problems, volume, system }: MouldFormProps) {
  const words = useWords();
  const sides = useSides();
  const mould = fieldOf(data, ['mould']) as Record<string, unknown> | undefined;
  const way: Way = mould?.solid !== undefined ? 'solid' : mould?.piece !== undefined ? 'piece' : 'water';
  const measured = volume === null ? '' : ` (now ${printQuantity(volume, 'volume', { system })})`;
  const pick = (next: Way): void => {
    if (next === way) return;
    if (next === 'water')
      editField(file, ['mould'], {
        water: volume === null ? words('⟦250 mL|8 fl oz⟧') : words(`⟦${Math.round(volume)} mL⟧`),
      });
    if (next === 'solid') editField(file, ['mould'], { solid: { shape: 'cylinder', ...sides('cylinder') } });
    if (next === 'piece')
      editField(file, ['mould'], {
        piece: {
          weight: words('⟦300 g|10 oz⟧'),
          amounts: { 'casting-plaster': words('⟦250 g|9 oz⟧'), water: words('⟦150 g|5 oz⟧') },
        },
      });
  };
  return (
    <section class="group" aria-labelledby="mould-title">
      <h2 id="mould-title">Mould{measured}</h2>
      <Pills
        legend="How its size is known"
        value={way}
        onPick={pick}
        options={[
          { value: 'water', text: 'water fill' },
          { value: 'solid', text: 'shape' },
          { value: 'piece', text: 'earlier piece' },
        ]}
      />
      {way === 'water' && (
        <Field
          label={FIELDS['mould.water']}
          value={textField(data, ['mould', 'water'])}
          hint="⟦250 mL|8 fl oz⟧"
          problem={problemAt(problems, 'mould.water')}
          onEdit={(t) => editField(file, ['mould', 'water'], t)}
        />
      )}
      {way === 'solid' && (
        <>
          <SolidForm file={file} data={data} part="solid" problems={problems} />
          <Fold name="A core that leaves a hollow" open={mould?.core !== undefined}>
            {mould?.core === undefined ? (
              <button
                type="button"
                class="button"
                onClick={() =>
                  editField(file, ['mould', 'core'], {
                    shape: 'cylinder',
                    diameter: words('⟦4 cm|1 1/2 in⟧'),
                    height: words('⟦4 cm|1 1/2 in⟧'),
                  })
                }
              >
                Add a core
              </button>
            ) : (
              <>
                <SolidForm file={file} data={data} part="core" problems={problems} />
                <button type="button" class="quiet" onClick={() => editField(file, ['mould', 'core'], undefined)}>
                  Take the core out
                </button>
              </>
            )}
          </Fold>
          {problemAt(problems, 'mould.core') !== undefined && (
            <p class="wrong">{plainWords(problemAt(problems, 'mould.core')!)}</p>
          )}
        </>
      )}
      {way === 'piece' && (
        <>
          <Field
            label={FIELDS['mould.piece.weight']}
            value={textField(data, ['mould', 'piece', 'weight'])}
            hint="⟦300 g|10 oz⟧"
            problem={problemAt(problems, 'mould.piece.weight')}
            onEdit={(t) => editField(file, ['mould', 'piece', 'weight'], t)}
          />
          <Amounts file={file} data={data} path={['mould', 'piece']} problems={problems} />
        </>
      )}
    </section>
  );
}

function SolidForm({
  file,
  data,
  part,
  problems,
}: Omit<MouldFormProps, 'volume' | 'system'> & { readonly part: 'solid' | 'core' }) {
  const sides = useSides();
  const shape = (textField(data, ['mould', part, 'shape']) || 'box') as Shape;
  return (
    <div class="fields">
      <Pills
        legend={part === 'core' ? 'Shape of the core' : 'Shape'}
        value={shape}
        options={SHAPES}
        onPick={(next) => editField(file, ['mould', part], { shape: next, ...sides(next) })}
      />
      {SIDES[shape].map((side) => (
        <Field
          key={side}
          label={side === 'across' ? 'across, flat to flat' : side}
          value={textField(data, ['mould', part, side])}
          hint="⟦8 cm|3 in⟧"
          problem={problemAt(problems, `mould.${part}.${side}`)}
          onEdit={(t) => editFields(file, [[['mould', part, side], t]])}
        />
      ))}
    </div>
  );
}

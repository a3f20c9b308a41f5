import { printQuantity, type UnitSystem } from '../../core/index.js';
import { Field, Fold, Pills, problemAt } from '../parts/field.js';
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

const FIRST: Readonly<Record<Shape, Readonly<Record<string, string>>>> = {
  box: { length: '12 cm', width: '8 cm', height: '4 cm' },
  cylinder: { diameter: '8 cm', height: '8 cm' },
  cone: { top: '10 cm', bottom: '8 cm', height: '8 cm' },
  hexagon: { across: '10 cm', height: '8 cm' },
};

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
  const mould = fieldOf(data, ['mould']) as Record<string, unknown> | undefined;
  const way: Way = mould?.solid !== undefined ? 'solid' : mould?.piece !== undefined ? 'piece' : 'water';
  const measured = volume === null ? '' : ` (now ${printQuantity(volume, 'volume', { system })})`;
  const pick = (next: Way): void => {
    if (next === way) return;
    if (next === 'water')
      editField(file, ['mould'], { water: volume === null ? '250 mL' : `${Math.round(volume)} mL` });
    if (next === 'solid') editField(file, ['mould'], { solid: { shape: 'cylinder', ...FIRST.cylinder } });
    if (next === 'piece')
      editField(file, ['mould'], {
        piece: { weight: '300 g', amounts: { 'casting-plaster': '250 g', water: '150 g' } },
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
          label="Water that fills it"
          value={textField(data, ['mould', 'water'])}
          hint="250 mL"
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
                  editField(file, ['mould', 'core'], { shape: 'cylinder', diameter: '4 cm', height: '4 cm' })
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
            <p class="wrong">{problemAt(problems, 'mould.core')!.message}</p>
          )}
        </>
      )}
      {way === 'piece' && (
        <>
          <Field
            label="Its weight when it left the mould"
            value={textField(data, ['mould', 'piece', 'weight'])}
            hint="300 g"
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
  const shape = (textField(data, ['mould', part, 'shape']) || 'box') as Shape;
  return (
    <div class="fields">
      <Pills
        legend={part === 'core' ? 'Shape of the core' : 'Shape'}
        value={shape}
        options={SHAPES}
        onPick={(next) => editField(file, ['mould', part], { shape: next, ...FIRST[next] })}
      />
      {SIDES[shape].map((side) => (
        <Field
          key={side}
          label={side === 'across' ? 'across, flat to flat' : side}
          value={textField(data, ['mould', part, side])}
          hint="8 cm"
          problem={problemAt(problems, `mould.${part}.${side}`)}
          onEdit={(t) => editFields(file, [[['mould', part, side], t]])}
        />
      ))}
    </div>
  );
}

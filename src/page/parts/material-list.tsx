import { useId } from 'preact/hooks';
import { shippedMaterials } from '../state/shipped.js';

/** A field for a material's name, with the shelf as suggestions. */
export function MaterialList({
  label,
  value,
  onEdit,
}: {
  readonly label: string;
  readonly value: string;
  readonly onEdit: (text: string) => void;
}) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        list={`${id}-list`}
        value={value}
        autocomplete="off"
        spellcheck={false}
        onInput={(e) => onEdit(e.currentTarget.value)}
      />
      <datalist id={`${id}-list`}>
        {shippedMaterials().map((m) => (
          <option key={m.id} value={m.id}>
            {m.name}
          </option>
        ))}
      </datalist>
    </div>
  );
}

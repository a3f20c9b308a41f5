import { useRef } from 'preact/hooks';
import { chanceWords, printBeside, printLimit, propertyById, readLimit, type Wording } from '../../core/index.js';
import type { Notice } from '../worker/notice.js';
import type { Told } from '../worker/told.js';
import { Field, problemAt } from './field.js';
import { nextStep, placeOf, type Span, STEPS, spanOf, valueAt } from './span.js';

interface WindowProps {
  readonly property: string;
  readonly min: string;
  readonly max: string;
  readonly told: Told | null;
  readonly wording: Wording;
  readonly problems: readonly Notice[];
  readonly onEdit: (side: 'min' | 'max', text: string | undefined) => void;
  readonly onRemove: () => void;
}

/** Keys that move a thumb, and by how many of the values a maker would say. */
const KEYS: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
  PageDown: -10,
  PageUp: 10,
};

/** A target as a window: a slider with two ends, the value the blend has, and its likely range behind. */
export function Window(props: WindowProps) {
  const { property: id, min, max, told, wording, problems, onEdit, onRemove } = props;
  const property = propertyById(id)!;
  const limit = (text: string): number | null => {
    if (text === '') return null;
    try {
      return readLimit(text, property.quantity, wording.currency, {});
    } catch {
      return null;
    }
  };
  const [low, high] = [limit(min), limit(max)];
  // The span stands still while its slider is moved.
  const span = useRef<Span | null>(null);
  span.current = spanOf(
    id,
    told?.result ?? null,
    [low, high].filter((l) => l !== null),
  );
  const held = useRef<Span | null>(null);
  const now = held.current ?? span.current;
  const at = told?.result.properties.find((p) => p.property === id);
  const verdict = told?.result.targets.find((t) => t.property === id);
  const place = (v: number | null, otherwise: number): number => (v === null ? otherwise : placeOf(now, v));
  const slide = (side: 'min' | 'max', step: number): void => {
    const open = side === 'min' ? step <= 0 : step >= STEPS;
    onEdit(side, open ? undefined : printLimit(valueAt(now, step / STEPS), property.quantity, wording));
  };
  const letGo = (): void => {
    held.current = null;
  };
  const thumb = (side: 'min' | 'max', text: string, value: number | null) => (
    <input
      type="range"
      class={`thumb ${side}`}
      min={0}
      max={STEPS}
      step={1}
      aria-label={`${property.name}, ${side === 'min' ? 'at least' : 'at most'}`}
      aria-valuetext={text === '' ? 'no limit' : text}
      value={Math.round(STEPS * place(value, side === 'min' ? 0 : 1))}
      onPointerDown={() => {
        held.current = now;
      }}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onInput={(e) => slide(side, Number(e.currentTarget.value))}
      onKeyDown={(e) => {
        const moves = KEYS[e.key];
        if (moves === undefined) return;
        e.preventDefault();
        let step = Number(e.currentTarget.value);
        for (let i = 0; i < Math.abs(moves); i++) step = nextStep(now, step, moves > 0 ? 1 : -1);
        slide(side, step);
      }}
    />
  );
  const [from, to] = [place(low, 0), place(high, 1)];
  const state = verdict === undefined ? '' : verdict.met ? 'met' : 'missed';
  return (
    <li class={`window ${state}`}>
      <div class="row">
        <h3>{property.name}</h3>
        <span class="now">
          {at === undefined
            ? '–'
            : printBeside({ property: id, value: at.value, min: low, max: high }, at.why, wording)}
          {verdict?.chance != null && <small> {chanceWords(verdict.chance)}</small>}
        </span>
        <button
          type="button"
          class="quiet small"
          aria-label={`Take out the target on ${property.name}`}
          onClick={onRemove}
        >
          ✕
        </button>
      </div>
      <div class="track">
        <svg class="rail" viewBox="0 0 100 14" preserveAspectRatio="none" aria-hidden="true">
          <rect class="line" x="0" y="5" width="100" height="4" rx="2" />
          <rect class="open" x={100 * from} y="5" width={Math.max(0, 100 * (to - from))} height="4" />
          {at?.low != null && (
            <rect
              class="likely"
              x={100 * placeOf(now, at.low)}
              y="2"
              width={Math.max(0.4, 100 * (placeOf(now, at.high ?? Number.POSITIVE_INFINITY) - placeOf(now, at.low)))}
              height="10"
            />
          )}
          {at?.value != null && (
            <rect class="value" x={100 * placeOf(now, at.value) - 0.35} y="0" width="0.7" height="14" />
          )}
        </svg>
        {thumb('min', min, low)}
        {thumb('max', max, high)}
      </div>
      <div class="ends">
        <Field
          bare
          label={`${property.name}, at least`}
          hint="no limit"
          value={min}
          problem={problemAt(problems, `targets.${id}.min`)}
          onEdit={(t) => onEdit('min', t)}
        />
        <span class="dash" aria-hidden="true">
          to
        </span>
        <Field
          bare
          label={`${property.name}, at most`}
          hint="no limit"
          value={max}
          problem={problemAt(problems, `targets.${id}.max`)}
          onEdit={(t) => onEdit('max', t)}
        />
      </div>
    </li>
  );
}

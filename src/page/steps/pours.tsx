import { useContext, useState } from 'preact/hooks';
import type { PourRow } from '../../core/index.js';
import { Field, Fold, PickFile, Pills } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { Units, useWords } from '../parts/units.js';
import { roughly, wordingOf } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import { type Bench, chosenFile, chosenTold, say } from '../state/bench.js';
import { dataOf, textField } from '../state/edit.js';
import { readPicked, saveAs, writeFile } from '../state/files.js';
import { askOnce } from '../state/once.js';
import { today } from '../state/today.js';
import { beside } from '../worker/folder.js';
import type { Notice } from '../worker/notice.js';
import type { Told } from '../worker/told.js';
import { Clocks } from './clocks.js';
import { PourDrawing } from './pour-drawing.js';
import { shopFileOf } from './shelf.js';
import { Teach } from './teach.js';

/** The record the shop names; pours.csv beside it where it names none. */
export function recordOf(bench: Bench): string {
  const shop = shopFileOf(bench);
  const named = shop === null ? '' : textField(dataOf(bench.folder[shop] ?? ''), ['pours']);
  return beside(shop ?? 'shop.yaml', named === '' ? 'pours.csv' : named);
}

/** What was really poured: written down, drawn, and learned from. */
export function PoursStep({ bench }: { readonly bench: Bench }) {
  const file = recordOf(bench);
  const shop = shopFileOf(bench);
  const text = bench.folder[file];
  const had = useAnswer('pours', 'pours', bench.folder, text === undefined ? null : { file, shop });
  const [trouble, setTrouble] = useState('');
  const load = async (picked: File): Promise<void> => {
    const read = await readPicked(picked);
    setTrouble('trouble' in read ? read.trouble : '');
    if ('text' in read) writeFile(file, read.text);
  };
  const wording = wordingOf(chosenTold(bench));
  const names = had.value?.pours.map((p) => p.pour) ?? [];
  return (
    <div class="narrow wide">
      <h1>Pours</h1>
      <Clocks clocks={bench.clocks} />
      <NewPour bench={bench} file={file} told={chosenTold(bench)} />
      {names.length > 0 && <Weigh file={file} bench={bench} names={names} busy={had.busy} />}
      <Notices problems={had.problems} title="What to put right in the record" />
      {had.value !== null && <Notices problems={had.value.warnings} title="Worth a look" />}
      {text !== undefined &&
        [...(had.value?.pours ?? [])]
          .reverse()
          .map((pour) => <PourDrawing key={pour.pour} pour={pour} wording={wording} />)}
      {text !== undefined && <Teach bench={bench} file={file} shop={shop} />}
      <section class="group" aria-labelledby="record-title">
        <h2 id="record-title">The record</h2>
        <p class="hint">
          {file}: one CSV that a spreadsheet opens and the command line reads. It is kept on this device.
        </p>
        <div class="row wrap">
          <button
            type="button"
            class="button"
            disabled={text === undefined}
            onClick={() => saveAs(file, text ?? '', 'text/csv')}
          >
            Save {file.split('/').at(-1)}
          </button>
          {text === undefined ? (
            <PickFile label="Load a record" accept=".csv,.txt" onPick={load} />
          ) : (
            <Replace file={file} text={text} onPick={load} />
          )}
        </div>
        {trouble !== '' && (
          <p class="wrong" role="alert">
            {trouble}
          </p>
        )}
      </section>
    </div>
  );
}

/** A record that is there is saved before another takes its place. */
function Replace({
  file,
  text,
  onPick,
}: {
  readonly file: string;
  readonly text: string;
  readonly onPick: (picked: File) => void;
}) {
  return (
    <PickFile
      label="Load another in its place (this one is saved first)"
      accept=".csv,.txt"
      onPick={(picked) => {
        saveAs(file.replace(/\.csv$/, '-before.csv'), text, 'text/csv');
        onPick(picked);
      }}
    />
  );
}

async function addRow(bench: Bench, file: string, row: PourRow): Promise<readonly Notice[]> {
  const answer = await askOnce('pour', bench.folder, { file, row });
  if (!answer.ok) return answer.problems;
  writeFile(file, answer.value.text);
  say(`Pour ${answer.value.name} is in the record.`);
  return [];
}

const QUESTIONS = [
  ['set min', 'Minutes until it stopped moving', '12'],
  ['demould min', 'Minutes until it left the mould', '60'],
  ['weights', 'Weights of a piece since the water', '1 h: ⟦285; 3 d: 249|10 oz; 3 d: 8.8 oz⟧'],
  ['room C', '⟦Room, °C|Room, with its unit⟧', '⟦20|68 °F⟧'],
  ['room %', 'Room, % humidity', '50'],
  ['note', 'Note', ''],
] as const;

function NewPour({ bench, file, told }: { readonly bench: Bench; readonly file: string; readonly told: Told | null }) {
  const words = useWords();
  const us = useContext(Units) === 'us';
  const [said, setSaid] = useState<Record<string, string>>({});
  const [wrong, setWrong] = useState<readonly Notice[]>([]);
  const paper = chosenFile(bench);
  const set = (column: string) => (value: string) => setSaid((s) => ({ ...s, [column]: value }));
  const blend = told?.result.blend.map((i) => `${i.material} ${Number(i.batchGrams.toPrecision(6))}`).join('; ') ?? '';
  const grams =
    told === null ? '' : String(Number(told.result.blend.reduce((s, i) => s + i.batchGrams, 0).toPrecision(6)));
  const pieces = told === null ? '' : String(Math.max(1, Math.round(told.result.batch.pieces)));
  const folder = file.includes('/') ? file.slice(0, file.lastIndexOf('/') + 1) : '';
  const save = async (): Promise<void> => {
    const row: Record<string, string> = { date: today(), 'batch g': grams, pieces, blend, ...said };
    if (paper?.startsWith(folder)) row['brief'] = paper.slice(folder.length);
    const problems = await addRow(bench, file, Object.fromEntries(Object.entries(row).filter(([, v]) => v !== '')));
    setWrong(problems);
    if (problems.length === 0) setSaid({});
  };
  return (
    <section class="group" aria-labelledby="new-title">
      <h2 id="new-title">Write down a pour</h2>
      <p class="hint">
        {told === null
          ? 'No blend is on the bench: say below what was mixed.'
          : `Of “${told.result.title}”, ${roughly(Number(grams), wordingOf(told))} mixed for ${pieces}.`}
      </p>
      {told === null && (
        <Field label="Blend" value={said['blend'] ?? ''} hint="casting-plaster 300; water 180" onEdit={set('blend')} />
      )}
      <div class="fields">
        <Field label="Date" type="date" value={said['date'] ?? today()} onEdit={set('date')} />
        <Field
          label={words('⟦Mixed in all, g|Mixed in all, with its unit⟧')}
          mode={us ? 'text' : 'decimal'}
          value={said['batch g'] ?? (us && told !== null ? roughly(Number(grams), wordingOf(told)) : grams)}
          onEdit={set('batch g')}
        />
        <Field label="Pieces" mode="numeric" value={said['pieces'] ?? pieces} onEdit={set('pieces')} />
        {QUESTIONS.map(([column, label, hint]) => (
          <Field key={column} label={words(label)} value={said[column] ?? ''} hint={hint} onEdit={set(column)} />
        ))}
      </div>
      <Words
        legend="How it flowed"
        column="flow"
        words={['stiff', 'thick', 'pours', 'thin', 'bleeds']}
        said={said}
        set={set}
      />
      <Words legend="Bubbles" column="bubbles" words={['none', 'few', 'many']} said={said} set={set} />
      <Words legend="Cracks" column="cracks" words={['none', 'fine', 'through']} said={said} set={set} />
      <Notices problems={wrong} title="Not written" />
      <button type="button" class="button main" onClick={() => void save()}>
        Write it down
      </button>
    </section>
  );
}

interface WordsProps {
  readonly legend: string;
  readonly column: string;
  readonly words: readonly string[];
  readonly said: Readonly<Record<string, string>>;
  readonly set: (column: string) => (value: string) => void;
}

const Words = ({ legend, column, words, said, set }: WordsProps) => (
  <Pills
    legend={legend}
    value={said[column] ?? ''}
    options={[{ value: '', text: 'not said' }, ...words.map((w) => ({ value: w, text: w }))]}
    onPick={set(column)}
  />
);

function Weigh({
  bench,
  file,
  names,
  busy,
}: {
  readonly bench: Bench;
  readonly file: string;
  readonly names: readonly string[];
  /** The record is being read: the newest pour may not be among the names yet. */
  readonly busy: boolean;
}) {
  const [pour, setPour] = useState('');
  const [weights, setWeights] = useState('');
  const [wrong, setWrong] = useState<readonly Notice[]>([]);
  const chosen = names.includes(pour) ? pour : names.at(-1)!;
  const save = async (): Promise<void> => {
    const problems = weights.trim() === '' ? [] : await addRow(bench, file, { pour: chosen, weights: weights.trim() });
    setWrong(problems);
    if (problems.length === 0) setWeights('');
  };
  return (
    <Fold name="Weigh an earlier pour again">
      <Pills
        legend="Pour"
        value={chosen}
        options={names.slice(-8).map((value) => ({ value, text: value }))}
        onPick={setPour}
      />
      <Field
        label="Time since the water, and weight of a piece"
        value={weights}
        hint="3 d: ⟦249 g|8.8 oz⟧"
        onEdit={setWeights}
      />
      <Notices problems={wrong} title="Not written" />
      <button type="button" class="button" disabled={busy} onClick={() => void save()}>
        Write the weight down
      </button>
    </Fold>
  );
}

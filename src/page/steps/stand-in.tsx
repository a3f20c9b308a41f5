import { useState } from 'preact/hooks';
import {
  type CandidateResult,
  chanceWords,
  farnessWords,
  HARDNESSES,
  MEDIUM_KINDS,
  MEDIUM_WORDS,
  offWords,
  printFine,
  printMargin,
  printQuantity,
  printToldOf,
  printWanted,
  SERVICES,
  type StandInResult,
  tellsWords,
  type Wording,
} from '../../core/index.js';
import { Cautions, useCautionsInView } from '../parts/cautions.js';
import { Expect } from '../parts/expect.js';
import { Choice, Field, Pills, problemAt } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { OwnFigures } from '../parts/own-figures.js';
import { Risks } from '../parts/risks.js';
import { Scroll } from '../parts/scroll.js';
import { Stops } from '../parts/stops.js';
import { useWords } from '../parts/units.js';
import { SERVICE_WORDS, spaced } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import { type Bench, update } from '../state/bench.js';
import { dataOf, textField } from '../state/edit.js';
import { editField, freeName, writeFile } from '../state/files.js';
import { ensureOwnShop, kindOf, openPaper, titleOf } from '../state/papers.js';
import type { Notice } from '../worker/notice.js';
import { LimitFields } from './limits-form.js';
import { Paper } from './paper.js';
import { shopFileOf } from './shelf.js';

/** A medium that cannot be had, told by what can be seen of it, and the blends of the shelf that come closest. */
export function StandInStep({ bench }: { readonly bench: Bench }) {
  const file = bench.medium;
  const had = useAnswer('stand-in', 'standIn', bench.folder, file === null ? null : { file });
  if (file === null || bench.folder[file] === undefined) return <NewMedium bench={bench} />;
  const text = bench.folder[file];
  const data = dataOf(text);
  return (
    <div class="narrow wide">
      <h1>{titleOf(file, text)}</h1>
      {data === null ? (
        <p class="hint">The file is not readable YAML just now; put it right below.</p>
      ) : (
        <MediumForm file={file} data={data} problems={had.problems} />
      )}
      <Notices problems={had.problems} title="What to put right" />
      {had.value === null ? (
        <p class="wait">{had.busy ? 'Looking along the shelf… this may take a while with many materials.' : ''}</p>
      ) : (
        <div class={had.busy ? 'stale' : undefined}>
          <Found
            result={had.value.result}
            file={file}
            data={data ?? {}}
            system={had.value.system}
            full={bench.fullCautions}
          />
        </div>
      )}
      <Paper file={file} text={text} name="The description" />
      <button type="button" class="button" onClick={() => update({ medium: null })}>
        Put this description away
      </button>
    </div>
  );
}

const EMPTY = `title: A medium I cannot get
service: dry-indoor
kind: gypsum-cement
mix: { powder: 100, liquid: 40 }
sample: { volume: ⟦160 mL|5 fl oz⟧, demoulded: ⟦280 g|9 oz⟧, dry: ⟦245 g|8 oz⟧ }
demould-time: 1 h
hardness: hard
`;

function NewMedium({ bench }: { readonly bench: Bench }) {
  const words = useWords();
  const known = Object.entries(bench.folder).filter(([name, text]) => kindOf(name, text) === 'medium');
  const begin = (): void => {
    const shop = shopFileOf(bench) ?? ensureOwnShop();
    const folder = shop.includes('/') ? shop.slice(0, shop.lastIndexOf('/') + 1) : '';
    const name = freeName(`${folder}my-medium.yaml`);
    writeFile(name, `${words(EMPTY)}shop: ${shop.slice(folder.length)}\n`);
    update({ medium: name });
  };
  return (
    <div class="narrow">
      <h1>A stand-in for what cannot be had</h1>
      <p>
        Tell what can be seen of it: how much water it takes, what a piece of known volume weighs, when it leaves the
        mould, how hard it gets. The bench looks for the blend of your shelf that comes closest.
      </p>
      <button type="button" class="button main" onClick={begin}>
        Describe a medium
      </button>
      {known.length > 0 && (
        <ul class="papers">
          {known.map(([name, text]) => (
            <li key={name}>
              <button type="button" class="open" onClick={() => update({ medium: name })}>
                <b>{titleOf(name, text)}</b>
                <small>{name}</small>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

interface MediumFormProps {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly problems: readonly Notice[];
}

function MediumForm({ file, data, problems }: MediumFormProps) {
  const text = (label: string, path: readonly string[], hint: string) => (
    <Field
      label={label}
      value={textField(data, path)}
      hint={hint}
      problem={problemAt(problems, path.join('.'))}
      onEdit={(t) => editField(file, path, t)}
    />
  );
  const pick = (path: readonly string[]) => (value: string) => editField(file, path, value);
  const acrylic = textField(data, ['mix', 'liquid-is']) === 'acrylic';
  return (
    <section class="group" aria-labelledby="seen-title">
      <h2 id="seen-title">What can be seen of it</h2>
      {text('Name', ['title'], 'untitled medium')}
      <Pills
        legend="Sold as"
        value={textField(data, ['kind'])}
        options={[
          { value: '', text: 'not said' },
          ...MEDIUM_KINDS.map((value) => ({ value, text: MEDIUM_WORDS[value] })),
        ]}
        onPick={pick(['kind'])}
      />
      <div class="fields">
        {text('Powder', ['mix', 'powder'], '100')}
        {text('Liquid that goes with it', ['mix', 'liquid'], '40')}
        <Choice
          label="The liquid is"
          value={acrylic ? 'acrylic' : 'water'}
          options={[
            { value: 'water', text: 'water' },
            { value: 'acrylic', text: 'an acrylic liquid' },
          ]}
          onPick={(v) => editField(file, ['mix', 'liquid-is'], v === 'water' ? undefined : v)}
        />
        {acrylic && text('Left of the liquid when dry', ['mix', 'left-when-dry'], '28 %')}
        {text('Volume of a weighed piece', ['sample', 'volume'], '⟦160 mL|5 fl oz⟧')}
        {text('Its weight out of the mould', ['sample', 'demoulded'], '⟦280 g|10 oz⟧')}
        {text('Its weight when dry', ['sample', 'dry'], '⟦245 g|9 oz⟧')}
        {text('It can be worked for', ['working-time'], '8 min')}
        {text('It leaves the mould after', ['demould-time'], '1 h')}
        {text('Price of the powder', ['price'], '38.00 per ⟦25 kg|50 lb⟧')}
      </div>
      <Pills
        legend="A dry piece is"
        value={textField(data, ['hardness'])}
        options={[{ value: '', text: 'not said' }, ...HARDNESSES.map((value) => ({ value, text: spaced(value) }))]}
        onPick={pick(['hardness'])}
      />
      <Pills
        legend="Where the piece will stand"
        value={textField(data, ['service']) || 'dry-indoor'}
        options={SERVICES.map((value) => ({ value, text: SERVICE_WORDS[value] ?? value }))}
        onPick={pick(['service'])}
      />
      <LimitFields file={file} data={data} problems={problems} />
    </section>
  );
}

interface FoundProps {
  readonly result: StandInResult;
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly system: Wording['system'];
  readonly full: boolean;
}

function Found({ result, file, data, system, full }: FoundProps) {
  const [place, setPlace] = useState(0);
  const shown = result.candidates[place] ?? result.candidates[0];
  useCautionsInView(shown?.cautions ?? null);
  const wording: Wording = { system, currency: result.currency };
  if (shown === undefined) return null;
  return (
    <>
      <Stops set={shown.cautions} />
      <Notices problems={[...result.warnings, ...shown.warnings]} title="Worth a look" />
      <OwnFigures own={shown.ownFigures} />
      <Tells result={result} system={system} />
      <section class="group" aria-labelledby="close-title">
        <h2 id="close-title">How close the shelf comes</h2>
        <Pills
          legend="Blend of"
          value={String(result.candidates.indexOf(shown))}
          options={result.candidates.map((c, i) => ({
            value: String(i),
            text: `${c.name}, ${farnessWords(c)} off`,
          }))}
          onPick={(v) => setPlace(Number(v))}
        />
        <p class="hint">
          {offWords(result, shown)}
          {shown.jointChance === null ? '' : `; all within tolerance at once: ${chanceWords(shown.jointChance)}`}. Off
          is counted in tolerances, to the tenth; of blends alike in that, the surer comes first.
        </p>
        <Closeness result={result} shown={shown} wording={wording} />
        {!shown.holds && <p class="wrong">This blend misses a target or a limit that every blend should keep.</p>}
        <table>
          <caption class="unseen">The blend</caption>
          <thead>
            <tr>
              <th scope="col">material</th>
              <th scope="col">one piece</th>
            </tr>
          </thead>
          <tbody>
            {shown.blend.map((i) => (
              <tr key={i.material}>
                <th scope="row">{i.name}</th>
                <td>
                  <b>{printFine(i.pieceGrams, result.batch.step, system)}</b>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <button type="button" class="button main" onClick={() => take(result, shown, file, data)}>
          Take this blend
        </button>
      </section>
      <div class="details">
        <Expect result={{ piece: result.piece, properties: shown.properties }} wording={wording} />
      </div>
      <Risks risks={shown.risks} />
      <Cautions set={shown.cautions} full={full} />
    </>
  );
}

/** What follows from the description itself. */
function Tells({ result, system }: Pick<FoundProps, 'result' | 'system'>) {
  const lines = tellsWords(result, system);
  if (lines.length === 0) return null;
  return (
    <section class="group" aria-labelledby="tells-title">
      <h2 id="tells-title">What the description tells</h2>
      <ul class="plain">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}

function Closeness({
  result,
  shown,
  wording,
}: {
  readonly result: StandInResult;
  readonly shown: CandidateResult;
  readonly wording: Wording;
}) {
  return (
    <Scroll label="Wanted and got">
      <table class="cards">
        <thead>
          <tr>
            <th scope="col">wanted</th>
            <th scope="col">got</th>
            <th scope="col">off by</th>
            <th scope="col">chance</th>
          </tr>
        </thead>
        <tbody>
          {shown.got.map((got, i) => {
            const wanted = result.wanted[i]!;
            const { miss } = got;
            const off =
              miss === null || got.value === null
                ? ''
                : Math.abs(got.distance) < 5e-3
                  ? 'as wanted'
                  : `${printMargin(got.property, Math.abs(miss), got.value, wording)} ${miss > 0 ? 'over' : 'under'}`;
            return (
              <tr key={got.property} class={got.within ? undefined : 'off'}>
                <th scope="row">
                  {wanted.name} <small>{printWanted(wanted, wording)}</small>
                </th>
                <td data-label="got">
                  <b>{printToldOf(shown, got.property, got.value, wording)}</b>
                </td>
                <td data-label="off by">{off}</td>
                <td data-label="chance">{chanceWords(got.chance)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </Scroll>
  );
}

/** The blend becomes a recipe of the maker's, to be weighed out, priced and changed. */
function take(result: StandInResult, shown: CandidateResult, file: string, data: Record<string, unknown>): void {
  const folder = file.includes('/') ? file.slice(0, file.lastIndexOf('/') + 1) : '';
  const name = freeName(`${folder}stand-in.yaml`);
  const shop = textField(data, ['shop']);
  const amounts = shown.blend.map((i) => `  ${i.material}: ${Number(i.pieceGrams.toPrecision(5))} g`).join('\n');
  const volume =
    result.piece.volume === null ? '' : `mould: { water: ${printQuantity(result.piece.volume, 'volume')} }\n`;
  writeFile(
    name,
    `title: ${JSON.stringify(`Stand-in for ${result.title}`)}\n${shop === '' ? '' : `shop: ${shop}\n`}${volume}service: ${result.piece.service}\npour: ${result.piece.pour}\namounts:\n${amounts}\n`,
  );
  openPaper(name);
}

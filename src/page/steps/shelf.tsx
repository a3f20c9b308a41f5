import { useState } from 'preact/hooks';
import { printMoney, significant } from '../../core/index.js';
import { Choice, Field, Fold, PickFile, Pills, problemAt } from '../parts/field.js';
import { Notices } from '../parts/notices.js';
import { Scroll } from '../parts/scroll.js';
import { useWords } from '../parts/units.js';
import { spaced } from '../parts/words.js';
import { useAnswer } from '../state/answers.js';
import { type Bench, chosenFile } from '../state/bench.js';
import { dataOf, textField } from '../state/edit.js';
import { editField, readPicked, saveAs, writeFile } from '../state/files.js';
import { ensureOwnShop } from '../state/papers.js';
import { beside } from '../worker/folder.js';
import type { Notice } from '../worker/notice.js';
import type { ShelfTold } from '../worker/shelf-told.js';
import { Paper } from './paper.js';

const NEW_LIST = 'material,pack,price,in stock\n';

/** The shop that the open brief or recipe names; the maker's own where there is none. */
export function shopFileOf(bench: Bench): string | null {
  const file = chosenFile(bench);
  const named = file === null ? '' : textField(dataOf(bench.folder[file] ?? ''), ['shop']);
  if (file !== null && named !== '') return beside(file, named);
  return Object.hasOwn(bench.folder, 'shop.yaml') ? 'shop.yaml' : null;
}

/** The shelf: what is there, what it costs, and how the shop works. */
export function ShelfStep({ bench }: { readonly bench: Bench }) {
  const file = shopFileOf(bench);
  const had = useAnswer('shelf', 'shelf', bench.folder, { shop: file });
  if (file === null)
    return (
      <div class="narrow">
        <h1>Your shelf</h1>
        <p>Prices, scale and room go into a shop file, so that every brief can use them.</p>
        <button type="button" class="button main" onClick={() => linkShop(bench)}>
          Begin a shop file
        </button>
        {had.value !== null && <Materials told={had.value} />}
      </div>
    );
  const text = bench.folder[file] ?? '';
  const data = dataOf(text) ?? {};
  const list = textField(data, ['prices']);
  const priceFile = list === '' ? null : beside(file, list);
  return (
    <div class="narrow wide">
      <h1>{textField(data, ['title']) || 'Your shelf'}</h1>
      <Notices problems={had.problems} title="What to put right" />
      {had.value !== null && <Notices problems={had.value.warnings} title="Worth a look" />}
      <Prices
        shop={file}
        priceFile={priceFile}
        text={priceFile === null ? '' : (bench.folder[priceFile] ?? '')}
        told={had.value}
      />
      <ShopForm file={file} data={data} problems={had.problems} />
      {had.value !== null && <Materials told={had.value} />}
      <Paper file={file} text={text} name="The shop" />
    </div>
  );
}

/** The open brief learns of the shop, so that the command line finds it too. */
function linkShop(bench: Bench): void {
  const shop = ensureOwnShop();
  const file = chosenFile(bench);
  if (file !== null && !file.includes('/')) editField(file, ['shop'], shop);
}

interface PricesProps {
  readonly shop: string;
  readonly priceFile: string | null;
  readonly text: string;
  readonly told: ShelfTold | null;
}

function Prices({ shop, priceFile, text, told }: PricesProps) {
  const words = useWords();
  const [pasted, setPasted] = useState('');
  const [trouble, setTrouble] = useState('');
  const target = priceFile ?? beside(shop, 'prices.csv');
  const keep = (list: string): void => {
    writeFile(target, list);
    if (priceFile === null) editField(shop, ['prices'], 'prices.csv');
    setPasted('');
  };
  const load = async (file: File): Promise<void> => {
    const read = await readPicked(file);
    setTrouble('trouble' in read ? read.trouble : '');
    if ('text' in read) keep(read.text);
  };
  const currency = told?.shop.currency ?? null;
  return (
    <section class="group" aria-labelledby="prices-title">
      <h2 id="prices-title">Prices</h2>
      {told === null && text !== '' ? (
        <p class="hint">Reading the list…</p>
      ) : told !== null && told.offers.length > 0 ? (
        <Scroll label="Price list" long>
          <table>
            <thead>
              <tr>
                <th scope="col">material</th>
                <th scope="col">pack</th>
                <th scope="col">price</th>
              </tr>
            </thead>
            <tbody>
              {told.offers.map((o) => (
                <tr key={`${o.name} ${o.pack}`}>
                  <th scope="row">{o.name}</th>
                  <td>{o.pack}</td>
                  <td>{printMoney(o.amount, currency)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      ) : (
        <p class="hint">No prices yet. Without them a blend can still be found, but not the cheapest.</p>
      )}
      <div class="row wrap">
        <PickFile label="Load a price list (CSV)" accept=".csv,.tsv,.txt" onPick={load} />
        {text !== '' && (
          <button type="button" class="button" onClick={() => saveAs(target, text, 'text/csv')}>
            Save {target.split('/').at(-1)}
          </button>
        )}
      </div>
      {trouble !== '' && (
        <p class="wrong" role="alert">
          {trouble}
        </p>
      )}
      <Fold name="Paste from a spreadsheet, or change by hand">
        <p class="hint">
          First row: material, pack, price, in any order; a column “in stock” counts too. Decimal commas are read.
        </p>
        <textarea
          class="paper"
          rows={8}
          spellcheck={false}
          aria-label="Price list to paste"
          placeholder={words(`${NEW_LIST}casting-plaster,⟦25 kg|50 lb⟧,31.00,1 bag`)}
          value={pasted === '' ? text : pasted}
          onInput={(e) => setPasted(e.currentTarget.value)}
        />
        <button type="button" class="button main" disabled={pasted === ''} onClick={() => keep(pasted)}>
          Use this list
        </button>
      </Fold>
    </section>
  );
}

function ShopForm({
  file,
  data,
  problems,
}: {
  readonly file: string;
  readonly data: Record<string, unknown>;
  readonly problems: readonly Notice[];
}) {
  const text = (label: string, path: readonly string[], hint: string) => (
    <Field
      label={label}
      value={textField(data, path)}
      hint={hint}
      problem={problemAt(problems, path.join('.'))}
      onEdit={(t) => editField(file, path, t)}
    />
  );
  return (
    <section class="group" aria-labelledby="shop-title">
      <h2 id="shop-title">Shop</h2>
      <div class="fields">
        {text('Currency', ['currency'], 'EUR')}
        {text('Scale tells apart', ['scale', 'step'], '⟦1 g|0.1 oz⟧')}
        {text('Scoop', ['scoop'], '⟦100 mL|1/2 cup⟧')}
        {text('Largest bowl', ['bowl'], '⟦2 kg|5 lb⟧')}
        {text('Room temperature', ['room', 'temperature'], '⟦20 °C⟧')}
        {text('Room humidity', ['room', 'humidity'], '50 %')}
        {text('Waste of what is mixed', ['waste'], '5 %')}
        {text('Pieces that fail', ['breakage'], '0 %')}
        <Choice
          label="Units"
          value={textField(data, ['units']) || 'metric'}
          options={[
            { value: 'metric', text: 'metric' },
            { value: 'us', text: 'US' },
          ]}
          onPick={(v) => editField(file, ['units'], v)}
        />
      </div>
      <Pills
        legend="Safety words of"
        value={textField(data, ['region']) || 'EU'}
        options={[
          { value: 'EU', text: 'EU and UK' },
          { value: 'US', text: 'US' },
        ]}
        onPick={(v) => editField(file, ['region'], v)}
      />
      <Fold name="A second, finer scale; work, mould, packing, postage, fee">
        <div class="fields">
          {text('Fine scale tells apart', ['scale', 'fine', 'step'], '⟦0.1 g|0.005 oz⟧')}
          {text('Fine scale bears', ['scale', 'fine', 'most'], '⟦200 g|7 oz⟧')}
          {text('An hour of your work', ['labour', 'rate'], '15.00')}
          {text('Minutes on each piece', ['labour', 'minutes'], '10')}
          {text('Minutes on each batch', ['labour', 'batch-minutes'], '20')}
          {text('Price of a mould', ['mould', 'price'], '24.00')}
          {text('Pours it lasts', ['mould', 'pours'], '60')}
          {text('Packing, a piece', ['packing', 'cost'], '0.80')}
          {text('Packing weighs', ['packing', 'weight'], '⟦120 g|4 oz⟧')}
          {text('Selling fee, of the price', ['fee', 'share'], '6 %')}
          {text('Margin, of the price', ['margin'], '15 %')}
        </div>
        <p class="hint">Postage steps and sealer are written in the file below.</p>
      </Fold>
    </section>
  );
}

function Materials({ told }: { readonly told: ShelfTold }) {
  const [sought, setSought] = useState('');
  const found = told.materials.filter((m) =>
    `${m.name} ${m.id} ${m.kind}`.toLowerCase().includes(sought.toLowerCase()),
  );
  return (
    <Fold name={`All ${told.materials.length} materials of the table`}>
      <Field label="Find" value={sought} hint="sand, red, plaster…" onEdit={setSought} />
      <ul class="materials">
        {found.map((m) => (
          <li key={m.id}>
            <span class="what">
              {m.name}
              <small>
                {[m.id, spaced(m.kind), ...(m.own ? ['your own'] : []), ...(m.use === null ? [] : [m.use])].join(' · ')}
              </small>
            </span>
            <span class="has">
              {m.price === null
                ? ''
                : `${printMoney(significant(1000 * m.price, 3).toString(), told.shop.currency)}/kg`}
            </span>
          </li>
        ))}
      </ul>
    </Fold>
  );
}

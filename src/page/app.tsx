import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import type { AssessmentResult, UnitSystem } from '../core/index.js';
import { CautionStrip } from './parts/cautions.js';
import { Troubles } from './parts/troubles.js';
import { Units } from './parts/units.js';
import { shownOf } from './parts/words.js';
import { type Bench, chosenFile, chosenTold, STEPS, type Step, update, useBench } from './state/bench.js';
import { dataOf, textField } from './state/edit.js';
import { AssessStep } from './steps/assess.js';
import { BlendStep } from './steps/blend.js';
import { CardStep } from './steps/card.js';
import { OrderStep } from './steps/order.js';
import { PoursStep } from './steps/pours.js';
import { PriceStep } from './steps/price.js';
import { ShelfStep, shopFileOf } from './steps/shelf.js';
import { StandInStep } from './steps/stand-in.js';
import { StartStep } from './steps/start.js';

const NAMES: Readonly<Record<Step, string>> = {
  start: 'Start',
  shelf: 'Shelf',
  blend: 'Blend',
  assess: 'Assess',
  'stand-in': 'Stand-in',
  price: 'Price',
  card: 'Card',
  pours: 'Pours',
  order: 'Order',
};

export function App() {
  const bench = useBench();
  useEffect(() => {
    const follow = (): void => {
      const wanted = location.hash.slice(1) as Step;
      if (!STEPS.includes(wanted)) return;
      update({ step: wanted });
      scrollTo(0, 0);
    };
    addEventListener('hashchange', follow);
    follow();
    return () => removeEventListener('hashchange', follow);
  }, []);
  const cautions = cautionsInView(bench);
  return (
    <>
      <a class="skip" href="#main">
        To the bench
      </a>
      <header class="top">
        <a class="name" href="#start">
          pourwright
        </a>
        <nav aria-label="Steps">
          <ol>
            {STEPS.map((step) => (
              <li key={step}>
                <a href={`#${step}`} aria-current={bench.step === step ? 'step' : undefined}>
                  {NAMES[step]}
                </a>
              </li>
            ))}
          </ol>
        </nav>
      </header>
      <main id="main" tabIndex={-1}>
        <Troubles troubles={bench.troubles} />
        <Units.Provider value={unitsOf(bench)}>{stepOf(bench)}</Units.Provider>
      </main>
      <footer class="foot">{cautions !== null && <CautionStrip set={cautions} />}</footer>
      <p class="unseen" role="status" aria-live="polite">
        {bench.said}
      </p>
    </>
  );
}

/** Those of the blend that the step is about. */
function cautionsInView(bench: Bench): AssessmentResult['cautions'] | null {
  if (bench.stepCautions !== null) return bench.stepCautions;
  const told = bench.step === 'assess' ? bench.assessed : bench.step === 'blend' ? bench.told : chosenTold(bench);
  return shownOf(told)?.result.cautions ?? null;
}

/** Of the shop that the steps are about, as its file has them while it is edited. */
function unitsOf(bench: Bench): UnitSystem {
  const shop = shopFileOf(bench);
  return textField(shop === null ? null : dataOf(bench.folder[shop] ?? ''), ['units']) === 'us' ? 'us' : 'metric';
}

function stepOf(bench: Bench): ComponentChildren {
  switch (bench.step) {
    case 'start':
      return <StartStep bench={bench} />;
    case 'blend':
      return bench.brief === null ? <Empty what="brief" /> : <BlendStep key={bench.brief} bench={bench} />;
    case 'shelf':
      return <ShelfStep bench={bench} />;
    case 'assess':
      return bench.recipe === null ? <Empty what="recipe" /> : <AssessStep key={bench.recipe} bench={bench} />;
    case 'stand-in':
      return <StandInStep bench={bench} />;
    case 'price':
      return chosenFile(bench) === null ? <Empty what="brief or a recipe" /> : <PriceStep bench={bench} />;
    case 'card':
      return chosenFile(bench) === null ? <Empty what="brief or a recipe" /> : <CardStep bench={bench} />;
    case 'pours':
      return <PoursStep bench={bench} />;
    case 'order':
      return <OrderStep bench={bench} />;
  }
}

export function Empty({ what }: { readonly what: string }) {
  return (
    <div class="narrow">
      <h1>Nothing on the bench yet</h1>
      <p>
        Open a {what} first: <a href="#start">start here</a>.
      </p>
    </div>
  );
}

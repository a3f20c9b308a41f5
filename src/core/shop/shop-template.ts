import type { UnitSystem } from '../units/print.js';

interface Measures {
  readonly currency: string;
  readonly region: string;
  readonly step: string;
  readonly fine: string;
  readonly scoop: string;
  readonly bowl: string;
  readonly room: string;
  readonly sealer: string;
  readonly use: string;
  readonly packing: string;
  readonly postage: readonly [string, string, string];
}

const MEASURES: Readonly<Record<UnitSystem, Measures>> = {
  metric: {
    currency: 'EUR',
    region: 'EU',
    step: '1 g',
    fine: '{ step: 0.1 g, most: 200 g }',
    scoop: '100 mL',
    bowl: '2 kg',
    room: '{ temperature: 20 °C, humidity: 50 % }',
    sealer: '18.00 per 500 mL',
    use: '6 mL',
    packing: '120 g',
    postage: ['500 g', '1 kg', '2 kg'],
  },
  us: {
    currency: 'USD',
    region: 'US',
    step: '0.1 oz',
    fine: '{ step: 0.1 g, most: 200 g }',
    scoop: '1/2 cup',
    bowl: '5 lb',
    room: '{ temperature: 68 °F, humidity: 50 % }',
    sealer: '18.00 per 16 fl oz',
    use: '0.2 fl oz',
    packing: '4 oz',
    postage: ['1 lb', '2 lb', '5 lb'],
  },
};

/** A commented shop file to fill in. What costs money is commented out: no price is guessed for anyone. */
export function shopTemplate(units: UnitSystem): string {
  const m = MEASURES[units];
  const [light, middle, heavy] = m.postage;
  return `# My shop. Name this file in a brief or a recipe (shop: shop.yaml) or with --shop.
# Change what is not yours; take the # off a line to use it. Every line may be left out.
# Figures behind a # are examples, not advice.

currency: ${m.currency}          # three letters; one currency for all sums
units: ${units}
region: ${m.region}             # whose safety words are used: EU or US

# Your price list: a CSV table with the columns material, pack, price (any order; more are kept).
# prices: prices.csv
# Your own materials, laid over the shipped table.
# materials: [my-materials.yaml]

# What your scale can tell apart; a second, finer scale for colour and small doses.
scale:
  step: ${m.step}
  # fine: ${m.fine}
scoop: ${m.scoop}           # the scoop you measure with when you do not weigh
# bowl: ${m.bowl}             # the most you mix at once: a weight or a volume

room: ${m.room}
waste: 5 %                # of what is mixed: left in the bowl, spilt
# breakage: 5 %           # of the pieces cast: cracked, chipped, not fit to sell

# hours: 6 h              # working hours a day, for an order
# weekdays: [mon, tue, wed, thu, fri]

# Your own pours teach the figures: the record they are kept in, and what was learned from it.
# pours: pours.csv
# learned: learned.yaml

# What a piece costs beside its materials.
# labour:
#   rate: 15.00           # what an hour of your work is to earn
#   minutes: 10           # on each piece: demoulding, trimming, sealing, packing
#   batch-minutes: 20     # on each batch, whatever it fills: weighing, mixing, washing up
# sealer: { price: ${m.sealer}, use: ${m.use} }    # use: for one piece
# mould: { price: 24.00, pours: 60 }    # pours: how many it lasts
# packing: { cost: 0.80, weight: ${m.packing} }
# postage:                # your carrier's table, by the weight of the parcel
#   - { up-to: ${light}, price: 4.00 }
#   - { up-to: ${middle}, price: 5.50 }
#   - { up-to: ${heavy}, price: 7.00 }
# fee: { share: 6 %, each: 0.25 }    # what selling takes: of the price, and for each sale
# margin: 15 %            # of the price, to be left over
`;
}

import { type Command, Option } from 'commander';
import { PARTS_BY } from '../core/optimise/question.js';
import type { Verb } from './verb.js';

/** The units of a sheet; JSON is metric whatever is asked for. */
const unitsOption = (): Option => new Option('--units <system>', 'print in these units').choices(['metric', 'us']);

/** Options that every verb on a brief or a recipe takes. */
const common = (command: Command): void => {
  command
    .option('--shop <file>', 'shop file to use instead of the one the input names')
    .option('--prices <file>', 'price list (CSV) to use instead of the shop’s')
    .option('--materials <file...>', 'your own material tables (YAML), laid over the shipped one')
    .addOption(unitsOption())
    .option('--json', 'print one JSON object instead of text');
};

/** The verbs of the command line, in the order of the work. */
export const VERBS: readonly Verb[] = [
  {
    usage: 'propose <brief>',
    summary: 'propose a blend that meets a brief (YAML; - reads standard input)',
    options: (command) => {
      common(command);
      command
        .option('--at-most <number>', 'at most so many dry ingredients')
        .addOption(new Option('--parts <way>', 'in whole-number parts by weight or by loose volume').choices(PARTS_BY))
        .option('--alternatives <number>', 'as many blends in all, of other ingredients, and what each gives up')
        .option('--reasons', 'tell what holds the blend back, and the price at which others would come in')
        .option('--days <list>', 'also tell the weight on these days after pouring, such as 2,14')
        .option('--sure <chance>', 'meet all targets at once with this chance, such as 0.9; or the surest there is')
        .option('--why', 'say what each figure rests on')
        .option('--cautions', 'print the cautions in full');
    },
    act: async (call) => (await import('./commands/propose.js')).proposeVerb(call),
  },
  {
    usage: 'assess <recipe>',
    summary: 'tell what a recipe will give (YAML; - reads standard input)',
    example: `A recipe:
  title: Wall pocket as it was
  mould: { water: 420 mL }    # without it the recipe is told as one batch
  amounts:                    # or in parts: basis: mass, and bare numbers
    casting plaster: 300 g
    water: 180 g`,
    options: (command) => {
      common(command);
      command
        .option('--days <list>', 'also tell the weight on these days after pouring, such as 2,14')
        .option('--why', 'say what each figure rests on')
        .option('--cautions', 'print the cautions in full');
    },
    act: async (call) => (await import('./commands/assess.js')).assessVerb(call),
  },
  {
    usage: 'stand-in <medium>',
    summary: 'find blends that come closest to a medium you cannot get, told by what can be seen of it (YAML)',
    options: (command) => {
      common(command);
      command
        .option('--at-most <number>', 'at most so many dry ingredients')
        .option('--rank <number>', 'show this one in full: 2 for the second closest')
        .option('--why', 'say what each figure rests on')
        .option('--cautions', 'print the cautions in full');
    },
    act: async (call) => (await import('./commands/stand-in.js')).standInVerb(call),
  },
  {
    usage: 'frontier <brief>',
    summary: 'draw what two properties of a brief’s blends cost each other: as good in one as the other allows',
    options: (command) => {
      common(command);
      command
        .requiredOption('--of <property>', 'such as dry-weight; min: or max: before it chooses the direction')
        .requiredOption('--against <property>', 'such as cost')
        .option('--points <number>', 'points to aim for (33 when left out)')
        .option('--csv <file>', 'write every point with its blend as a table')
        .option('--svg <file>', 'write a picture');
    },
    act: async (call) => (await import('./commands/frontier.js')).frontierVerb(call),
  },
  {
    usage: 'price <file...>',
    summary: 'price a piece of a brief or a recipe, or several side by side',
    options: (command) => {
      common(command);
      command
        .option('--at <sum>', 'tell what is left, and what an hour earns, at this selling price')
        .option('--pieces <number>', 'pieces of the run that whole packs are reckoned for (100 when left out)')
        .option('--once <sum...>', 'spent once for each file before its first piece, in their order');
    },
    act: async (call) => (await import('./commands/price.js')).priceVerb(call),
  },
  {
    usage: 'order <order>',
    summary: 'plan an order: pours by day, moulds and packs to buy, the last dry date',
    options: (command) => {
      common(command);
      command
        .option('--with-moulds', 'show the timetable with the moulds that are to be bought')
        .option('--cautions', 'print the cautions in full');
    },
    act: async (call) => (await import('./commands/order.js')).orderVerb(call),
  },
  {
    usage: 'card <file>',
    summary: 'print the weigh-out card of a brief or a recipe, as text or as a page to print',
    options: (command) => {
      common(command);
      command
        .option('--pieces <number>', 'pieces to pour, in place of what the file says')
        .option('--bowl <amount>', 'the most that one bowl mixes, such as "2 kg" or "1.5 L"')
        .option('--html <file>', 'write a page to print instead of text')
        .addOption(new Option('--paper <size>', 'paper of that page').choices(['a4', 'letter']));
    },
    act: async (call) => (await import('./commands/card.js')).cardVerb(call),
  },
  {
    usage: 'pours <step> [pour]',
    summary: 'add: write a pour down; show: its weight against time; fit: learn your own figures from all pours',
    options: (command) => {
      command
        .option('--shop <file>', 'shop file (shop.yaml here when left out)')
        .option('--file <file>', 'record of pours (CSV) instead of the one the shop names')
        .option('--pour <name>', 'add: a pour that is in the record already, to add a later weighing')
        .option('--date <date>', 'add: day of the pour, year-month-day (today)')
        .option('--brief <file>', 'add: the brief or recipe that was poured')
        .option('--blend <parts>', 'add: what was mixed, such as "casting-plaster 300; water 180"')
        .option('--batch <mass>', 'add: mixed in all, such as "1.2 kg"')
        .option('--pieces <number>', 'add: pieces it was poured into')
        .option('--room-temperature <degrees>', 'add: of the room')
        .option('--room-humidity <percent>', 'add: of the room')
        .option('--set <time>', 'add: until it stopped moving, such as "18 min"')
        .option('--demould <time>', 'add: until it could be taken out')
        .option('--weight <time:weight...>', 'add: of one piece since the water, such as "3 d: 249 g"')
        .option('--flow <words>', 'add: how it flowed')
        .option('--bubbles <words>', 'add: none, few, many')
        .option('--cracks <words>', 'add: none, fine, through')
        .option('--note <words>', 'add: anything else')
        .option('--materials <file...>', 'your own material tables (YAML), laid over the shipped one')
        .option('--out <file>', 'fit: where to write what was learned (the shop’s, or learned.yaml beside it)')
        .option('--dry-run', 'fit: write nothing')
        .addOption(unitsOption())
        .option('--json', 'print one JSON object instead of text');
    },
    act: async (call) => (await import('./commands/pours.js')).poursVerb(call),
  },
  {
    usage: 'shop <action> [file]',
    summary: 'init: write a shop file to fill in; check: look it over; prices: export the price list (CSV)',
    options: (command) => {
      command
        .option('--prices <file>', 'price list (CSV) to use instead of the shop’s')
        .option('--materials <file...>', 'your own material tables (YAML), laid over the shipped one')
        .addOption(new Option('--units <system>', 'init: units of the file').choices(['metric', 'us']))
        .option('--csv <file>', 'prices: write to a new file instead of printing')
        .option('--json', 'print one JSON object instead of text');
    },
    act: async (call) => (await import('./commands/shop.js')).shopVerb(call),
  },
  {
    usage: 'page',
    summary: 'serve the bench page on this machine alone, for a browser; it works from disk too',
    options: (command) => {
      command
        .option('--port <number>', 'port to use; a free one when left out')
        .option('--json', 'print one JSON object instead of text');
    },
    act: async (call) => (await import('./commands/page.js')).pageVerb(call),
  },
  {
    usage: 'shelf [material]',
    summary: 'list the materials, show one with its sources, or check your own file',
    options: (command) => {
      command
        .option('--kind <kind>', 'only materials of this kind')
        .option('--check <file>', 'check your own materials file')
        .option('--materials <file...>', 'your own material tables (YAML), laid over the shipped one')
        .addOption(unitsOption())
        .option('--json', 'print one JSON object instead of text');
    },
    act: async (call) => (await import('./commands/shelf.js')).shelfVerb(call),
  },
  {
    usage: 'sieve [file...]',
    summary:
      'grade sands from sieve weights (CSV or YAML): fineness modulus, ASTM C33 envelope, plot; several: the best mix',
    options: (command) => {
      command
        .option('--with <material...>', 'sands of the shelf to look at or mix in')
        .addOption(
          new Option('--curve <name>', 'curve the mix aims at (modified andreasen when left out)').choices([
            'andreasen',
            'fuller',
          ]),
        )
        .option('--exponent <number>', 'of that curve (andreasen 0.37, fuller 0.5)')
        .option('--smallest <size>', 'where the modified andreasen curve begins (63 um)')
        .option('--largest <size>', 'where the curve ends (the finest sieve that 95 % of every sand passes)')
        .option('--svg <file>', 'write the plot as a picture')
        .option('--row <file>', 'write your sand as a row of your own materials table (YAML)')
        .option('--like <material>', 'row: sand of the shelf whose other figures stand in (the nearest quartz sand)')
        .option('--materials <file...>', 'your own material tables (YAML), laid over the shipped one')
        .addOption(unitsOption())
        .option('--json', 'print one JSON object instead of text');
    },
    act: async (call) => (await import('./commands/sieve.js')).sieveVerb(call),
  },
  {
    usage: 'why [property]',
    summary: 'tell what a property rests on: equation, source, limits, published checks; alone it lists all',
    options: (command) => {
      command
        .option('--all', 'print every check, not only the worst ones')
        .addOption(unitsOption())
        .option('--json', 'print one JSON object instead of text');
    },
    act: async (call) => (await import('./commands/why.js')).whyVerb(call),
  },
  {
    usage: 'complete <shell>',
    summary: 'print a script that teaches your shell the verbs and options: bash, zsh or fish',
    options: () => {},
    act: async (call) => (await import('./commands/complete.js')).completeVerb(call),
  },
];

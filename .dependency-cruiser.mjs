// Which way imports may point (`npm run layers`). DEVELOPERS.md says why; each layer may use those before it, never those after.
const LAYERS = [
  'problems',
  'units',
  'reading',
  'science',
  'materials',
  'blend',
  'optimise',
  'safety',
  'risks',
  'brief',
  'sieve',
  'shop',
  'report',
];

const layer = (names) => `^src/core/(${names.join('|')})/`;

const upward = LAYERS.slice(0, -1).map((name, i) => ({
  name: `${name}-looks-only-down`,
  severity: 'error',
  // The one bibliography's shape is the table's; science only fills it in.
  from: { path: layer([name]), ...(name === 'science' ? { pathNot: '^src/core/science/sources[.]ts$' } : {}) },
  to: { path: layer(LAYERS.slice(i + 1)) },
}));

/** The only files of the command line that may touch a disk. */
const DISK = ['files', 'standard-output', 'append-log', 'lock', 'load', 'shipped', 'start', 'compiled'];

export default {
  forbidden: [
    ...upward,
    {
      name: 'no-circles',
      severity: 'error',
      from: { path: '^src' },
      // Types, and what is loaded only when it is called for, make no circle at run time.
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only', 'dynamic-import'] } },
    },
    {
      name: 'core-knows-no-skin',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { path: '^src/(cli|page|build)/' },
    },
    {
      name: 'core-is-pure',
      comment: 'No module of Node; src/core/tsconfig.json also refuses its globals.',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'forward-model-knows-no-optimiser',
      severity: 'error',
      from: { path: '^src/core/(blend|science|materials)/' },
      to: { path: '^src/core/optimise/' },
    },
    {
      name: 'page-uses-the-public-list',
      severity: 'error',
      from: { path: '^src/page/' },
      to: { path: '^src/(core/(?!index[.]ts$)|cli/)' },
    },
    {
      name: 'command-line-knows-no-page',
      severity: 'error',
      from: { path: '^src/cli/' },
      to: { path: '^src/(page|build)/' },
    },
    {
      name: 'one-door-to-the-pivot-engine',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/core/optimise/lp/pivot-engine[.]ts$' },
      to: { path: '(^|/)javascript-lp-solver(/|$)' },
    },
    {
      name: 'one-door-to-the-disk',
      severity: 'error',
      from: { path: '^src/cli/', pathNot: `^src/cli/(${DISK.join('|')})[.]ts$` },
      to: { path: '^(node:)?fs(/promises)?$' },
    },
    {
      name: 'nothing-shipped-needs-a-tool',
      comment: 'What the package runs on is under dependencies; preact and d3 are bundled into the page.',
      severity: 'error',
      from: { path: '^src/(core|cli)/' },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'sources-know-no-test',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^test/' },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default'] },
  },
};

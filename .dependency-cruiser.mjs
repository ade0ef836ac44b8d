// Who may import whom. `npm run imports` judges src by it; DEVELOPERS.md shows it in short.
//
// The ladder, imports pointing down only:
//   app/main, cli/main
//   app/wiring, app/screens, cli/wiring, cli/commands
//   app/workers, app/state, app/components            hub
//   edges/*
//   core/season-report
//   core/forecast, core/roster, core/exchange
//   core/replication
//   core/log, core/inference, core/thermal, core/acoustics, core/sky, core/orientation,
//   core/emergence, core/inventory, core/invented-season
//   core/domain
//   core/numerics
//   words                  (what is said on the screen, in every language; its texts stand in the code)

const GROUND = ['core/numerics'];
const FIELD = ['core/domain', ...GROUND];
const CORE = ['core'];

/**
 * One row a folder: what it may import besides itself, why no more, and what to do instead.
 * `core` stands for all of it.
 */
const MAY_IMPORT = [
  [
    'core/numerics',
    [],
    'Plain mathematics knows no field words.',
    'Take the numbers as arguments, or move the idea up to where the field word is known.',
  ],
  [
    'core/domain',
    GROUND,
    'The words of the field must not depend on what is calculated from them.',
    'Move the calculation into its own folder, or the shared word down into domain.',
  ],
  [
    'core/inference',
    GROUND,
    'Inference knows chains and grids, and nothing of nests.',
    'Take numbers or a function as an argument; core/forecast translates from nests.',
  ],
  ...['core/thermal', 'core/acoustics', 'core/sky', 'core/orientation'].map((folder) => [
    folder,
    FIELD,
    'Each science stands by itself, so that it can be checked by itself.',
    'Take the other thing as an argument, or let core/forecast bring the two together.',
  ]),
  [
    'core/emergence',
    ['core/log', ...FIELD],
    'Counts are read from the record of a nest, whatever is made of them.',
    'Take the other thing as an argument, or let a screen or core/exchange bring the two together.',
  ],
  [
    'core/inventory',
    ['core/emergence', 'core/log', ...FIELD],
    'When a nest is counted follows from when it came up.',
    'Take the other thing as an argument, or let a screen or core/exchange bring the two together.',
  ],
  [
    'core/log',
    FIELD,
    'The record says what happened, whatever is made of it later.',
    'Calculate in a folder above; keep in the log what was seen.',
  ],
  [
    'core/invented-season',
    ['core/sky', ...FIELD],
    'The generator must not share a line with the inference that is tried on it.',
    'Write it anew from field knowledge, or move plain mathematics down into core/numerics.',
  ],
  [
    'core/exchange',
    ['core/log', 'core/orientation', 'core/emergence', 'core/inventory', ...FIELD],
    'Text to events and back, the same for every file, server and screen.',
    'Let the caller read the file and hand over the text.',
  ],
  [
    'core/forecast',
    [
      'core/inference',
      'core/thermal',
      'core/acoustics',
      'core/sky',
      'core/orientation',
      'core/inventory',
      'core/log',
      ...FIELD,
    ],
    'This is where the sciences meet the nest; rosters and files are for others.',
    'Give back a value; roster, exchange and the screens take it from there.',
  ],
  [
    'core/season-report',
    [
      'core/forecast',
      'core/orientation',
      'core/emergence',
      'core/inventory',
      'core/thermal',
      'core/sky',
      'core/log',
      ...FIELD,
    ],
    'A season is told from its record and its odds; nothing is calculated from what is told.',
    'Give back a value; the screens and core/exchange show it.',
  ],
  [
    'core/replication',
    ['core/log', ...FIELD],
    'Two records become one, whatever carries the events between them.',
    'State what is needed of a hub as an interface; edges/hub speaks to it.',
  ],
  [
    'core/roster',
    ['core/log', ...FIELD],
    'A plan is made from chances handed in, so that any forecast will do.',
    'Take the chances as an argument; wiring asks core/forecast for them.',
  ],
  [
    'edges/$own',
    CORE,
    'An edge talks to one outside thing, and knows neither another edge nor a screen.',
    'Let wiring hand one to the other through an interface of the core.',
  ],
  [
    'hub',
    ['core/domain', 'core/log', ...GROUND],
    'The service keeps and passes on events; it calculates nothing from them.',
    'Calculate on the device.',
  ],
  [
    'app/components',
    CORE,
    'A component draws the values it is given.',
    'Take the value or the verb as a prop; a screen reads it from state.',
  ],
  [
    'app/state',
    ['app/workers', 'words', ...CORE],
    'State takes its collaborators through the constructor, so that a test can hand in its own.',
    'State the interface you need; wiring chooses the edge that meets it.',
  ],
  [
    'app/workers',
    ['words', ...CORE],
    'A worker runs the core beside the screen.',
    'Post values to it; wiring starts it and holds the edges.',
  ],
  [
    'app/screens',
    ['app/state', 'app/components', 'app/styles', 'words', ...CORE],
    'A screen shows and responds; which store or device is behind it is not its affair.',
    'Take it from state; wiring chooses the edge.',
  ],
  [
    'app/wiring',
    ['app/state', 'app/workers', 'edges', 'words', ...CORE],
    'Wiring joins edges, workers and state; it draws nothing.',
    'Put what is drawn into a screen, and mount it in app/main.',
  ],
  ['words', [], 'Words are loaded before anything that says them.', 'Let who says it import it.'],
  ['app/styles', [], 'Styles stand by themselves.', 'Move the code beside the component.'],
  [
    'cli/commands',
    ['cli/wiring', 'edges', 'hub', ...CORE],
    'The terminal shares the core with the app, not its screens.',
    'Move the shared idea down into core.',
  ],
  [
    'cli/wiring',
    ['edges', 'hub', ...CORE],
    'The terminal shares the core with the app, not its screens.',
    'Move the shared idea down into core.',
  ],
];

/** Packages that only one place may import, so that each can be changed in one place. */
const ONLY_FROM = [
  ['meyda', 'src/core/acoustics/features\\.ts', 'Its settings sit on one shared object.'],
  ['astronomy-engine', 'src/core/sky/', 'Sun and moon come from core/sky alone.'],
  [
    'geomagnetism',
    'src/core/orientation/declination\\.ts',
    'It carries a model with an end: one place says so.',
  ],
  ['wuchale', 'src/words/', 'The build puts the words into all other files.'],
  ['idb', 'src/edges/store/', 'The database is the store edge’s affair.'],
  ['read-excel-file', 'src/edges/files/', 'Workbooks are unpacked so that no policy is broken.'],
  ['highs', 'src/edges/solver/', 'The solver loads 3.5 MB; only its edge decides when.'],
  ['(?:fastify|postgres|@electric-sql/pglite)', 'src/hub/', 'Servers stay in the hub.'],
  ['comlink', 'src/(?:app/(?:workers|wiring)|edges/solver)/', 'Workers are reached by wiring.'],
];

const RUNS_ON_NODE = '^src/(?:cli|hub|edges/disk)/';

const escaped = (path) => path.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** The rule of one row: no import out of the folder except into the ones named. */
function ladderRule([folder, allowed, reason, remedy]) {
  const own = folder.endsWith('/$own');
  const from = own ? `^src/${escaped(folder.slice(0, -5))}/([^/]+)/` : `^src/${escaped(folder)}/`;
  const self = own ? `${folder.slice(0, -5)}/$1` : folder;
  const targets = [own ? self : escaped(self), ...allowed.map(escaped)].join('|');
  const names = allowed.length === 0 ? 'nothing else of ours' : allowed.join(', ');
  return {
    name: `${folder.replace('/$own', '')} imports down only`,
    comment: `${folder} may import only: itself, ${names}. ${reason} ${remedy}`,
    severity: 'error',
    from: { path: from },
    to: { path: '^src/', pathNot: `^src/(?:${targets})/` },
  };
}

const folders = MAY_IMPORT.map(([folder]) => escaped(folder).replace('/\\$own', '/[^/]+'));

/** A folder of the table, the few files above them, or a declaration of types. */
const KNOWN_PLACE = [
  `^src/(?:${folders.join('|')})/`,
  '^src/app/(?:main|start|service-worker)\\.ts$',
  '^src/app/[A-Z]\\w*\\.svelte$',
  '^src/cli/main\\.ts$',
  '\\.d\\.ts$',
];

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    ...MAY_IMPORT.map(ladderRule),
    {
      name: 'cli does not import app',
      comment: 'The terminal has no screen. Move the shared idea down into core.',
      severity: 'error',
      from: { path: '^src/cli/' },
      to: { path: '^src/app/' },
    },
    {
      name: 'app does not import cli or hub',
      comment: 'A phone has no terminal. Move the shared idea down into core.',
      severity: 'error',
      from: { path: '^src/app/' },
      to: { path: '^src/(?:cli|hub)/' },
    },
    {
      name: 'only wiring chooses the edges',
      comment:
        'Which store, device or service is used is decided in one place. ' +
        'Choose it in wiring and hand it on through an interface of the core.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(?:edges|app/wiring|cli/wiring|cli/commands)/' },
      to: { path: '^src/edges/' },
    },
    {
      name: 'every folder has a row in the table',
      comment:
        'This file lies in a folder of which nothing is said. Add a row to MAY_IMPORT in ' +
        '.dependency-cruiser.mjs, with its reason, or move the file.',
      severity: 'error',
      from: { path: '^src/', pathNot: KNOWN_PLACE },
      to: {},
    },
    {
      name: 'only folders of the table are imported',
      comment:
        'The imported file lies in a folder of which nothing is said. Add a row to MAY_IMPORT ' +
        'in .dependency-cruiser.mjs, with its reason, or move the file.',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^src/', pathNot: KNOWN_PLACE },
    },
    {
      name: 'no circles',
      comment: 'Two files that need each other are one idea, or hide a third. Take the third out.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'core runs anywhere',
      comment: 'The core touches neither disk nor terminal. Take what is read as an argument.',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'only cli, hub and edges/disk run on Node',
      comment: 'A browser has no node: modules. Use what both have, or move it to one of these.',
      severity: 'error',
      from: { path: '^src/', pathNot: [RUNS_ON_NODE, '^src/core/'] },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'core has no framework',
      comment: 'The core must outlive every framework. Give back a value; the shell shows it.',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { path: '(?:^|node_modules/)(?:svelte|vite|vite-plugin-pwa|workbox-[a-z]+)(?:/|$)' },
    },
    ...ONLY_FROM.map(([name, from, reason]) => ({
      name: `${name.replace(/\(\?:|\)/g, '')} has one place`,
      comment: `${reason} Only ${from.replaceAll('\\', '')} imports it: call that instead.`,
      severity: 'error',
      from: { path: '^src/', pathNot: `^${from}` },
      to: { path: `(?:^|node_modules/)${name}(?:/|$)` },
    })),
    {
      name: 'src stands by itself',
      comment:
        'Tests, benches and scripts use src, never the other way round. Move the idea into src.',
      severity: 'error',
      from: { path: '^src/' },
      // What a browser may do with the app is said once, for the build, the start script and the hub.
      to: {
        path: '^(?:tests|bench|scripts|dist)/',
        pathNot: '^scripts/security-headers\\.m(?:js|ts)$',
      },
    },
    {
      name: 'what is imported exists',
      comment: 'The file or package is not there: misspelt, not installed, or not in package.json.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^virtual:|[?](?:worker&)?url$' },
    },
    {
      name: 'shipped code needs no tool',
      comment:
        'A package of devDependencies is not there when the program runs from a terminal. ' +
        'Move it to dependencies. (Svelte and workbox-window are compiled into the app.)',
      severity: 'error',
      from: { path: '^src/' },
      to: {
        dependencyTypes: ['npm-dev', 'npm-no-pkg'],
        dependencyTypesNot: ['type-only'],
        pathNot: 'node_modules/(?:svelte|workbox-window|vite-plugin-pwa|@types)/',
      },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    // Made by the build.
    exclude: { path: '^src/words/\\.' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.browser.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['svelte', 'browser', 'import', 'default', 'types'],
      extensions: ['.ts', '.js', '.svelte', '.mjs', '.d.ts'],
    },
  },
};

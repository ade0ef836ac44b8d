import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import ts from 'typescript-eslint';
import { explainedDisables } from './scripts/lint/explained-disables.js';
import svelteConfig from './svelte.config.js';

/** Where `!` on a typed-array read is allowed: plain loops over flat arrays whose layout is stated. */
const KERNELS = [
  'src/core/numerics/**/*.ts',
  'src/core/inference/**/*.ts',
  'src/core/acoustics/**/*.ts',
  'scripts/sound-sketch/**/*.ts',
  ...[
    'archive',
    'check-value',
    'cue-chains',
    'cue-tally',
    'effect-layout',
    'evidence',
    'hour-of-emergence',
    'incubation',
    'learn-*',
    'learned-*',
    'learning-*',
    'misreading',
    'nest-odds',
    'prior',
    'reading-tally',
    'row-tally',
    'score-evenings',
    'season-memory',
    'shared-effects',
    'tonight',
  ].map((name) => `src/core/forecast/${name}.ts`),
  'src/core/log/event-id.ts',
];

const TYPED = ['**/*.ts', '**/*.svelte'];

/** Globals that would make the core depend on the hour, on luck or on where it runs. */
const IMPURE_GLOBALS = [
  ['fetch', 'The core asks for nothing over the network: an edge fetches and passes the text in.'],
  [
    'setTimeout',
    'The core does not wait. Give back a value; the caller decides when to ask again.',
  ],
  [
    'setInterval',
    'The core does not wait. Give back a value; the caller decides when to ask again.',
  ],
  ['queueMicrotask', 'The core does not wait. Give back a value and let the caller go on.'],
  ['localStorage', 'The core keeps nothing. Take what is kept as an argument; an edge stores it.'],
  [
    'sessionStorage',
    'The core keeps nothing. Take what is kept as an argument; an edge stores it.',
  ],
  ['indexedDB', 'The core keeps nothing. State the interface you need; edges/store provides it.'],
  ['navigator', 'The core knows no device. Take what you need of it as an argument.'],
  ['window', 'The core knows no screen. Take what you need as an argument.'],
  ['document', 'The core knows no screen. Give back a value; a component shows it.'],
  ['crypto', 'Take the random bytes or the id as an argument; wiring draws them.'],
  ['performance', 'Take the time as an argument; wiring supplies the clock.'],
  ['process', 'The core knows no terminal. Take what you need as an argument.'],
  [
    'console',
    'The core prints nothing. Give back a value that says what is wrong; the shell shows it.',
  ],
].map(([name, message]) => ({ name, message }));

const CLOCK =
  'Take the moment as an argument (`now_ms`, or an Instant); wiring supplies the clock.';
const ZONE =
  'This uses the time zone or language of the machine. Name both, as the programme gives them.';

/** Ways to read the clock, to draw luck or to lean on the machine's own settings. */
const IMPURE_SYNTAX = [
  ["MemberExpression[object.name='Date'][property.name='now']", CLOCK],
  ["NewExpression[callee.name='Date'][arguments.length=0]", CLOCK],
  ["CallExpression[callee.name='Date']", CLOCK],
  ["MemberExpression[object.name='Temporal'][property.name='Now']", CLOCK],
  [
    "MemberExpression[object.name='Math'][property.name='random']",
    'Take a seed, or a Random of core/numerics/random.ts, as an argument.',
  ],
  ["NewExpression[callee.object.name='Intl'][arguments.length<2]", ZONE],
  ['CallExpression[callee.property.name=/^toLocale(Date|Time)?String$/][arguments.length<2]', ZONE],
  [
    'CallExpression[callee.property.name=/^(get|set)(FullYear|Month|Date|Day|Hours|Minutes|TimezoneOffset)$/]',
    'These read the time zone of the machine. Use the UTC form, or core/domain/night.ts with a named zone.',
  ],
].map(([selector, message]) => ({ selector, message }));

export default ts.config(
  {
    ignores: [
      'dist/',
      'src/words/',
      '.cache/',
      'coverage/',
      'screenshots/',
      'node_modules/',
      'tests/fixtures/',
    ],
  },
  {
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    plugins: { firstdark: { rules: { 'explained-disables': explainedDisables } } },
    rules: { 'firstdark/explained-disables': 'error' },
  },
  js.configs.recommended,
  {
    files: TYPED,
    extends: [ts.configs.strictTypeChecked, ts.configs.stylisticTypeChecked],
    languageOptions: {
      parserOptions: {
        project: ['tsconfig.core.json', 'tsconfig.browser.json', 'tsconfig.node.json'],
        tsconfigRootDir: import.meta.dirname,
        extraFileExtensions: ['.svelte'],
      },
    },
    rules: {
      // The compiler knows every name.
      'no-undef': 'off',
      '@typescript-eslint/consistent-type-imports': [
        'error',
        { fixStyle: 'inline-type-imports', disallowTypeAnnotations: false },
      ],
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true, requireDefaultForNonUnion: true },
      ],
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-unused-vars': [
        'error',
        {
          argsIgnorePattern: '^_',
          varsIgnorePattern: '^_',
          destructuredArrayIgnorePattern: '^_',
          ignoreRestSiblings: true,
        },
      ],
      // `Record<string, X>` and `{ [key: string]: X }` read equally well.
      '@typescript-eslint/consistent-indexed-object-style': 'off',
      // A type for a shape may be written either way; unions need `type`.
      '@typescript-eslint/consistent-type-definitions': 'off',
      // A flat array is walked by index where the index means something (a night, a cell).
      '@typescript-eslint/prefer-for-of': 'off',
      // `cells['nest']` says that the name comes from outside.
      '@typescript-eslint/dot-notation': ['error', { allowIndexSignaturePropertyAccess: true }],
      // An interface may be met by a method that has nothing to wait for.
      '@typescript-eslint/require-await': 'off',
      // `required<Value>(key)` names what the caller expects.
      '@typescript-eslint/no-unnecessary-type-parameters': 'off',
      eqeqeq: 'error',
      'no-console': ['error', { allow: ['warn', 'error'] }],
      'no-restricted-exports': ['error', { restrictDefaultExports: { direct: false } }],
    },
  },
  svelte.configs.recommended,
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser, svelteConfig } },
    rules: {
      'svelte/no-at-html-tags': 'error',
      'no-restricted-syntax': [
        'error',
        {
          selector: "SvelteAttribute[key.name='style']",
          message:
            'The security policy drops style attributes. Use a class, or `style:width={...}` for a value.',
        },
      ],
      'svelte/require-each-key': 'error',
      'svelte/no-target-blank': 'error',
      // `let { nest, pick } = $props()` is how props are read.
      'prefer-const': 'off',
      'svelte/prefer-const': ['error', { excludedRunes: ['$props', '$derived', '$bindable'] }],
      // `void clock.now;` says on purpose that something is read to be followed.
      '@typescript-eslint/no-meaningless-void-operator': 'off',
      // The parser cannot see through a component's props.
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
  {
    files: ['src/core/**/*.ts'],
    rules: {
      'no-restricted-globals': ['error', ...IMPURE_GLOBALS],
      'no-restricted-syntax': ['error', ...IMPURE_SYNTAX],
    },
  },
  {
    files: KERNELS,
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    files: ['tests/**/*.ts', 'bench/**/*.ts'],
    rules: {
      // A test or a bench that reads past the end fails at once and says where.
      '@typescript-eslint/no-non-null-assertion': 'off',
      // expect(object.method) and given-when-then builders.
      '@typescript-eslint/unbound-method': 'off',
      // `expect(...).rejects` reads as one; the promise is the assertion's.
      '@typescript-eslint/no-unnecessary-condition': 'off',
    },
  },
  {
    files: ['src/cli/**/*.ts', 'bench/**/*.ts', 'scripts/**/*.ts', 'scripts/**/*.mjs'],
    rules: { 'no-console': 'off' },
  },
  {
    files: ['**/*.js', '**/*.mjs'],
    languageOptions: {
      globals: { process: 'readonly', console: 'readonly', URL: 'readonly', Buffer: 'readonly' },
    },
  },
  {
    files: ['public/**/*.js'],
    languageOptions: {
      sourceType: 'script',
      globals: {
        document: 'readonly',
        localStorage: 'readonly',
        matchMedia: 'readonly',
        navigator: 'readonly',
      },
    },
  },
);

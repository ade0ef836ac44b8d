// Which texts of the app are words for people. They stand in the code in English; `src/words` holds
// them in every language, and the build puts in the place of each the one of the language chosen.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { adapter as components, svelteDefaultHeuristic } from '@wuchale/svelte';
import ts from 'typescript';
import { defineConfig, pofile } from 'wuchale';
import { adapter as modules } from 'wuchale/adapter-vanilla';

const SOURCES = join(import.meta.dirname, 'src');

/** Looks like words and is read by programs, or stands for the same in every language. */
const NOT_FOR_PEOPLE = [
  'src/core/exchange/darwin-core/**',
  'src/core/exchange/mapping/headings.ts',
  'src/core/exchange/mapping/words.ts',
  'src/core/exchange/public/**',
  'src/core/exchange/mapping/date-order.ts',
  'src/core/invented-season/**',
  'src/core/roster/write-lp.ts',
  'src/core/thermal/**',
  'src/app/**/*.svelte.ts',
  'src/app/wiring/finished-shelf.ts',
  'src/app/wiring/sharing-tools.ts',
  'src/edges/disk/**',
  'src/edges/hub/http-hub.ts',
  'src/edges/device/compass.ts',
  'src/edges/store/change-signal.ts',
  'src/edges/store/kept-mappings.ts',
  'src/edges/store/settings.ts',
  'src/edges/store/upgrade-steps.ts',
  '**/*.d.ts',
];

/** By these the code tells one thing from another: they stay as they are wherever they stand. */
const NAMES = new Set([
  'no clock',
  'own {0}',
  'reads {0}',
  'left out {0}',
  'volunteer {0}',
  '{0} (as found)',
  'command line',
  'placed elsewhere',
  ...readdirSync(SOURCES, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|svelte)$/.test(name))
    .flatMap((name) => scriptsOf(readFileSync(join(SOURCES, name), 'utf8'), name))
    .flatMap((script) => namesIn(ts.createSourceFile('', script, ts.ScriptTarget.Latest, true))),
]);

/** The scripts of a component, and the comparisons in its markup. */
function scriptsOf(text, name) {
  if (name.endsWith('.ts')) return [text];
  const [, script = ''] = /<script[^>]*>([\s\S]*?)<\/script>/.exec(text) ?? [];
  return [script, ...[...text.matchAll(/[!=]== '[^']+'/g)].map(([compared]) => `x ${compared}`)];
}

/** Texts in types, comparisons, cases, names of properties and the lists of a schema. */
function namesIn(node) {
  const below = [];
  ts.forEachChild(node, (child) => void below.push(...namesIn(child)));
  return ts.isStringLiteral(node) && isName(node) ? [node.text, ...below] : below;
}

function isName({ parent }) {
  if (ts.isLiteralTypeNode(parent) || ts.isCaseClause(parent)) return true;
  if (ts.isBinaryExpression(parent)) return /^[!=]==$/.test(parent.operatorToken.getText());
  const isInCall = ts.isArrayLiteralExpression(parent) && ts.isCallExpression(parent.parent);
  return isInCall && parent.parent.expression.getText().endsWith('enum');
}

/** What is given to these is read by people, however it begins. */
const SHOWN_ATTRIBUTES = new Set(['aria-label', 'title', 'label', 'detail', 'none']);

/**
 * In markup every text is for people. In a script, what reads like a phrase or begins like a
 * sentence is, unless it is a name; single small words are marked with `@wc-include`.
 */
function isForPeople(message) {
  const { scope, call, attribute } = message.details;
  if (scope === 'attribute' && SHOWN_ATTRIBUTES.has(attribute ?? '')) return 'message';
  if (scope !== 'script') return svelteDefaultHeuristic(message);
  const text = message.msgStr.join(' ');
  if (NAMES.has(text) || (call !== undefined && /^(console|z)\./.test(call))) return false;
  const isPhrase = /\p{L}{2}/u.test(text) && /\S\s+\S/.test(text);
  return isPhrase || /^\p{Lu}\p{Ll}[\p{Ll}’-]*[.,:;!?…]?$/u.test(text) ? 'message' : false;
}

/** The words are there before anything of the app is evaluated: each file takes them once. */
const runtime = {
  useReactive: false,
  reactive: { wrapInit: (given) => given, wrapUse: (given) => given },
};
const common = {
  heuristic: isForPeople,
  storage: pofile({ dir: 'src/words' }),
  loader: 'custom',
};

/** Lets the constants of a module hold words as well as its functions. */
function wordsAtTop(adapter) {
  return {
    ...adapter,
    transform: (source) => {
      const { output, msgs } = adapter.transform(source);
      const take = `\nconst _w_runtime_ = ${source.expr.plain};\n`;
      return { msgs, output: (header) => output(`${header}${take}`) };
    },
  };
}

export default defineConfig({
  locales: ['en', 'es'],
  localesDir: 'src/words',
  ai: null,
  logLevel: 'warn',
  adapters: {
    screens: components({
      ...common,
      files: ['src/app/**/*.svelte', 'src/app/**/*.svelte.ts'],
      runtime: {
        ...runtime,
        initReactive: ({ funcName, ctx: { module } }) =>
          module || funcName == null ? false : null,
      },
    }),
    modules: wordsAtTop(
      modules({
        ...common,
        runtime: { ...runtime, initReactive: () => null },
        files: {
          include: ['src/app/**/*.ts', 'src/core/**/*.ts', 'src/edges/**/*.ts'],
          ignore: NOT_FOR_PEOPLE,
        },
      }),
    ),
  },
});

// Gathers the texts of the app as `npm run words` does, writes nothing, and says what src/words lacks.
import { readFileSync } from 'node:fs';
import { access, readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { getConfig, Hub } from 'wuchale';
import { entriesOf, missingFrom, spacedAtEnds } from './catalogue.mjs';
import { ROOT } from './run.mjs';

/** Each text as it stands in the code, noted while the adapters read it. */
function noting(config, said) {
  const listens = (adapter) => ({
    ...adapter,
    async transform(source) {
      const { msgs, ...result } = await adapter.transform(source);
      for (const { msgStr } of msgs) {
        for (const english of msgStr) said.push({ english, files: [source.filename] });
      }
      return { msgs, ...result };
    },
  });
  const adapters = Object.entries(config.adapters).map(([name, one]) => [name, listens(one)]);
  return { ...config, adapters: Object.fromEntries(adapters) };
}

/** The catalogue as it would be gathered where there was none before. */
async function gathered(config) {
  const [source] = config.locales;
  let catalogue = '';
  const hub = await Hub.create('cli', () => config, ROOT, 0, {
    read: (file) => (file.endsWith('.po') ? null : readFile(file, 'utf8').catch(() => null)),
    exists: (file) =>
      access(file).then(
        () => true,
        () => false,
      ),
    write(file, text) {
      if (basename(file) === `${source}.po`) catalogue = text;
    },
    mkdir() {},
    unlink: () => true,
  });
  await hub.directVisit(true, false, false);
  return catalogue;
}

/** Lists texts under what is wrong with them, each once. */
function tell(fault, texts) {
  if (texts.length === 0) return;
  console.error(`${fault}:`);
  for (const text of new Set(texts)) console.error(`  ${text}`);
  process.exitCode = 1;
}

const config = await getConfig();
const inCode = [];
const said = entriesOf(await gathered(noting(config, inCode)));
const catalogues = config.locales.map((language) =>
  entriesOf(readFileSync(join(ROOT, config.localesDir, `${language}.po`), 'utf8')),
);
const missing = catalogues.flatMap((kept) => missingFrom(kept, said));
const left = catalogues.flatMap((kept) => missingFrom(said, kept));
tell(`The app says what is not in ${config.localesDir}`, missing);
tell(`In ${config.localesDir}, and no longer said`, left);
if (missing.length + left.length > 0) {
  console.error('Run "npm run words -- --clean", and fill in what is then empty.');
}
const spaced = spacedAtEnds(inCode);
tell('Texts that begin or end with a space', spaced);
if (spaced.length > 0) {
  console.error(
    'Make each a whole text, or join it to its neighbour outside of the quotation marks.',
  );
}
if (process.exitCode !== 1) {
  console.log(`${said.length} texts, all gathered`);
}

// Gathers the texts of the app as `npm run words` does, writes nothing, and says what src/words lacks.
import { readFileSync } from 'node:fs';
import { access, readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { getConfig, Hub } from 'wuchale';
import { entriesOf, missingFrom } from './catalogue.mjs';
import { ROOT } from './run.mjs';

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
const said = entriesOf(await gathered(config));
const catalogues = config.locales.map((language) =>
  entriesOf(readFileSync(join(ROOT, config.localesDir, `${language}.po`), 'utf8')),
);
const missing = catalogues.flatMap((kept) => missingFrom(kept, said));
const left = catalogues.flatMap((kept) => missingFrom(said, kept));
tell(`The app says what is not in ${config.localesDir}`, missing);
tell(`In ${config.localesDir}, and no longer said`, left);
if (process.exitCode === 1) {
  console.error('Run "npm run words -- --clean", and fill in what is then empty.');
} else {
  console.log(`${said.length} texts, all gathered`);
}

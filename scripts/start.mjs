// npm start: installs and builds what is missing, serves the app on this machine, says where.
import { parseArgs } from 'node:util';
import { DIST, ensureBuilt } from './build.mjs';
import { ensureInstalled, requireNode } from './install.mjs';
import { serveFolder } from './serve.mjs';

const USUAL_PORT = 4173;
const HIGHEST_PORT = 65535;

/** The port asked for with --port; the usual one, or one of the 50 after it, when none is. */
function chosenPort() {
  const { values } = parseArgs({ options: { port: { type: 'string' } } });
  if (values.port === undefined) return { port: USUAL_PORT, tries: 50 };
  const port = Number(values.port);
  if (/^\d+$/.test(values.port) && port <= HIGHEST_PORT) return { port, tries: 0 };
  console.error(`--port ${values.port}: expected a whole number from 0 to ${HIGHEST_PORT}.`);
  process.exit(2);
}

requireNode();
const wanted = chosenPort();
ensureInstalled();
ensureBuilt();
try {
  const served = await serveFolder(DIST, wanted);
  console.log(`\nFirstdark is at ${served.address}  (Ctrl+C ends it)`);
  for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, () => void served.close());
} catch (problem) {
  console.error(
    problem.code === 'EADDRINUSE'
      ? `Port ${wanted.port} is taken. Choose another with: npm start -- --port NUMBER`
      : `The app could not be served: ${problem.message}`,
  );
  process.exit(1);
}

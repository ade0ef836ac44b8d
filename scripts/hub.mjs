// npm run hub: installs and builds what is missing, then runs the hub and says where it is.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled, requireNode } from './install.mjs';
import { ROOT } from './run.mjs';

requireNode();
ensureInstalled();
ensureBuilt();
const program = join(ROOT, 'src', 'cli', 'main.ts');
const child = spawn(
  process.execPath,
  ['--import', 'tsx', program, 'hub', ...process.argv.slice(2)],
  { stdio: 'inherit' },
);
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
child.on('exit', (code) => process.exit(code ?? 1));

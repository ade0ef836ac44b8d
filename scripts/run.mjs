// Running other programs from a script.
import { spawn, spawnSync } from 'node:child_process';

/** The project's root folder. */
export const ROOT = new URL('..', import.meta.url).pathname;

/** Runs a program in the project's root and gives its exit code (1 when it could not be started). */
export function run(program, args, environment = {}) {
  const { status, error } = spawnSync(program, args, {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, ...environment },
  });
  if (error) console.error(`${program} could not be started: ${error.message}`);
  return status ?? 1;
}

/** Runs a program that must succeed; ends this one with the same exit code when it does not. */
export function mustRun(program, args, environment) {
  const code = run(program, args, environment);
  if (code === 0) return;
  console.error(`\n"${[program, ...args].join(' ')}" failed with exit code ${code}.`);
  process.exit(code);
}

/** Runs a program while others run, and gives its exit code and all that it wrote. */
export function gather(program, args) {
  return new Promise((done) => {
    const child = spawn(program, args, { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'] });
    let text = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8').on('data', (piece) => (text += piece));
    }
    child.on('error', ({ message }) => done({ code: 1, text: `${program}: ${message}\n` }));
    child.on('close', (code) => done({ code: code ?? 1, text }));
  });
}

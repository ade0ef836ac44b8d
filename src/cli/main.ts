#!/usr/bin/env node
import { pathToFileURL } from 'node:url';
import { commandTable } from './commands/command-table.ts';
import { type CommandIo, WrongUsage } from './wiring/command.ts';

/**
 * Runs one command of the command line and gives its exit code: 0 done, 1 the input has errors,
 * 2 wrong usage.
 */
export async function main(argv: readonly string[], io: CommandIo): Promise<number> {
  const [name, ...args] = argv;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    const text = await usage();
    if (name === undefined) io.err(text);
    else io.out(text);
    return name === undefined ? 2 : 0;
  }
  const load = Object.hasOwn(commandTable, name) ? commandTable[name] : undefined;
  if (load === undefined) {
    io.err(`There is no command "${name}".\n\n${await usage()}`);
    return 2;
  }
  const command = await load();
  if (args.includes('--help')) {
    io.out(`firstdark ${command.usage}\n  ${command.summary}\n`);
    return 0;
  }
  try {
    return await command.run(args, io);
  } catch (error) {
    if (!(error instanceof WrongUsage)) throw error;
    io.err(`${error.message}\nUsage: firstdark ${command.usage}\n`);
    return 2;
  }
}

async function usage(): Promise<string> {
  const commands = await Promise.all(Object.values(commandTable).map((load) => load()));
  const lines = commands.map(({ usage, summary }) => `  ${usage}\n      ${summary}\n`);
  return `Usage: firstdark COMMAND …\n\n${lines.join('')}\nExit code: 0 done, 1 the input has errors, 2 wrong usage.\n`;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  process.exitCode = await main(process.argv.slice(2), {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    now_ms: () => Date.now(),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  });
}

import type { Command } from '../wiring/command.ts';

/**
 * Every command by name, loaded only when it is called. A new command: its file here in
 * `commands`, exporting one `Command`, and a line in this table.
 */
export const commandTable: Readonly<Record<string, () => Promise<Command>>> = {
  check: async () => (await import('./check.ts')).check,
};

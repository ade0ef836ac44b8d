import type { Command } from '../wiring/command.ts';

/**
 * Every command by name, loaded only when it is called. A new command: its file here in
 * `commands`, exporting one `Command`, and a line in this table.
 */
export const commandTable: Readonly<Record<string, () => Promise<Command>>> = {
  rank: async () => (await import('./rank.ts')).rank,
  night: async () => (await import('./night.ts')).night,
  roster: async () => (await import('./roster.ts')).roster,
  backtest: async () => (await import('./backtest.ts')).backtest,
  check: async () => (await import('./check.ts')).check,
  import: async () => (await import('./import.ts')).importCommand,
  export: async () => (await import('./export.ts')).exportCommand,
  orientation: async () => (await import('./orientation.ts')).orientation,
  inventory: async () => (await import('./inventory.ts')).inventory,
  simulate: async () => (await import('./simulate.ts')).simulate,
  sync: async () => (await import('./sync.ts')).sync,
  hub: async () => (await import('./hub.ts')).hub,
  listen: async () => (await import('./listen.ts')).listen,
};

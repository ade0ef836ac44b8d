import type { Denominator } from '../../core/domain/inventory.ts';
import { hasErrors } from '../../core/exchange/problem.ts';
import { type Success, successOf } from '../../core/inventory/success.ts';
import { oneOf, readArguments, zoneOption } from '../wiring/arguments.ts';
import type { Command } from '../wiring/command.ts';
import { tellProblems } from '../wiring/load-season.ts';
import { clutchesBeside, loadTable } from '../wiring/load-table.ts';

/**
 * Hatch and emergence success of every inventory, as shares from 0 to 1. Reckoned from what each row
 * says (its columns `denominator` and `clutch`), else from the contents; `--of` decides for all rows.
 * Eggs at laying that a row lacks are those of its nest in a `nests.csv` beside the file.
 */
export const inventory: Command = {
  name: 'inventory',
  usage: 'inventory FILE.csv [--of contents|laid] [--zone ZONE] [--json]',
  summary: 'hatch and emergence success of each nest, and which eggs they are reckoned from',
  run: async (args, io) => {
    const options = {
      of: { type: 'string' },
      zone: { type: 'string' },
      json: { type: 'boolean' },
    } as const;
    const { values, at } = readArguments(args, options, ['FILE.csv']);
    const zone = zoneOption(values.zone) ?? io.zone;
    const asked: Denominator | null =
      values.of === undefined ? null : oneOf(values.of, 'of', ['contents', 'laid']);
    const path = at[0] ?? '';
    const { facts, problems } = await loadTable(path, 'inventory', zone);
    tellProblems(problems, io);
    const clutches = await clutchesBeside(path, zone);
    const found = facts.map(({ nest, details }) => {
      const asAsked = asked === null ? details : { ...details, denominator: asked };
      return { nest, date: details.date, success: successOf(asAsked, clutches.get(nest) ?? null) };
    });
    if (values.json === true) {
      const document = found.map(({ nest, date, success }) => json(nest, date, success));
      io.out(`${JSON.stringify(document, null, 1)}\n`);
    } else {
      io.out('nest        date        eggs          hatched  emerged\n');
      for (const { nest, date, success } of found) io.out(line(nest, date, success));
    }
    return hasErrors(problems) ? 1 : 0;
  },
};

function json(nest: string, date: string, success: Success): object {
  return {
    nest,
    date,
    clutch: success.clutch,
    hatch_success: success.hatch,
    emergence_success: success.emergence,
    denominator: success.denominator,
    contents: success.contents,
    taken_as_none: success.takenAsNone,
    problems: success.problems.map(({ message }) => message),
  };
}

function line(nest: string, date: string, success: Success): string {
  const share = (value: number | null): string =>
    value === null ? '-' : `${(100 * value).toFixed(1)} %`;
  const eggs = `${success.clutch ?? '-'} ${success.denominator}`;
  const told = success.problems.map(({ message }) => `  ! ${message}\n`).join('');
  return `${nest.padEnd(11)} ${date}  ${eggs.padEnd(12)} ${share(success.hatch).padStart(8)} ${share(success.emergence).padStart(8)}\n${told}`;
}

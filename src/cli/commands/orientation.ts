import { hasErrors } from '../../core/exchange/problem.ts';
import type { FactOf } from '../../core/log/season-record.ts';
import { type Orientation, orientationOf } from '../../core/orientation/orientation-of.ts';
import { readArguments, zoneOption } from '../wiring/arguments.ts';
import type { Command } from '../wiring/command.ts';
import { tellProblems } from '../wiring/load-season.ts';
import { loadTable } from '../wiring/load-table.ts';

/**
 * The figures of every record of which way hatchlings went. The line to the sea is the record's, else
 * that of its zone in a `programme.json` beside the file.
 */
export const orientation: Command = {
  name: 'orientation',
  usage: 'orientation FILE.csv [--zone ZONE] [--json]',
  summary: 'mean direction, spread, fan and offset from the line to the sea of each record',
  run: async (args, io) => {
    const options = { zone: { type: 'string' }, json: { type: 'boolean' } } as const;
    const { values, at } = readArguments(args, options, ['FILE.csv']);
    const zone = zoneOption(values.zone) ?? io.zone;
    const { facts, problems, programme } = await loadTable(at[0] ?? '', 'orientation', zone);
    tellProblems(problems, io);
    const seaward = new Map(programme.zones?.map((one) => [one.zone, one.seaward_deg ?? null]));
    const found = facts.map((fact) => ({
      fact,
      figures: orientationOf(fact.details, seaward.get(fact.details.zone ?? '') ?? null),
    }));
    if (values.json === true) {
      io.out(
        `${JSON.stringify(
          found.map(({ fact, figures }) => json(fact, figures)),
          null,
          1,
        )}\n`,
      );
    } else {
      io.out('nest        night       n   mean    r     p       fan    offset\n');
      for (const { fact, figures } of found) io.out(line(fact, figures));
    }
    return hasErrors(problems) ? 1 : 0;
  },
};

type Recorded = FactOf<'orientation-recorded'>;

/** Degrees 0 up to 360; `offset_deg` 0..180 with its side. Null = not to be said, `unsaid` says why. */
function json({ nest, details }: Recorded, figures: Orientation): object {
  const { mean, rayleigh, fan, offset, main, confidence } = figures;
  return {
    nest,
    night: details.night,
    n: figures.n,
    mean_deg: mean?.mean_deg ?? null,
    r: mean?.r ?? null,
    rayleigh_z: rayleigh?.z ?? null,
    rayleigh_p: rayleigh?.p ?? null,
    fan_deg: fan?.width_deg ?? null,
    offset_deg: offset?.offset_deg ?? null,
    offset_side: offset?.side ?? null,
    offset_of: main?.from ?? null,
    median_deg: figures.median_deg,
    deviation_deg: mean?.deviation_deg ?? null,
    circular_sd_deg: mean?.sd_deg ?? null,
    ci95_half_deg: confidence?.kind === 'within' ? confidence.half_deg : null,
    leftmost_deg: fan?.left_deg ?? null,
    rightmost_deg: fan?.right_deg ?? null,
    seaward_deg: figures.seaward_deg,
    unsaid: figures.unsaid,
  };
}

function line(
  { nest, details }: Recorded,
  { n, mean, rayleigh, fan, offset }: Orientation,
): string {
  const cell = (value: number | null | undefined, digits: number): string =>
    value === null || value === undefined ? '-' : value.toFixed(digits);
  const chance = (p: number | null): string => (p !== null && p < 0.0001 ? '<0.0001' : cell(p, 4));
  const side = offset === null || offset.side === 'neither' ? '' : ` ${offset.side}`;
  return [
    nest.padEnd(11),
    details.night,
    String(n).padStart(3),
    cell(mean?.mean_deg, 1).padStart(6),
    cell(mean?.r, 2).padStart(5),
    chance(rayleigh?.p ?? null).padStart(7),
    cell(fan?.width_deg, 0).padStart(5),
    `${cell(offset?.offset_deg, 0).padStart(5)}${side}\n`,
  ].join('  ');
}

import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { listenToWav } from '../../core/acoustics/listen-to-wav.ts';
import type { Reading } from '../../core/acoustics/reading.ts';
import { warningText } from '../../core/acoustics/warnings.ts';
import { readWav } from '../../core/acoustics/wav.ts';
import { readArguments } from '../wiring/arguments.ts';
import type { Command } from '../wiring/command.ts';
import { percent } from '../wiring/percent.ts';

/** What the microphone meter makes of a recording. */
export const listen: Command = {
  name: 'listen',
  usage: 'listen FILE.wav [--json]',
  summary: 'counts the scratches in a recording and says how sure it is, or that it can not tell',
  run: async (args, io) => {
    const { values, at } = readArguments(args, { json: { type: 'boolean' } } as const, [
      'FILE.wav',
    ]);
    const path = at[0] ?? '';
    let bytes;
    try {
      bytes = await readFile(path);
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      io.err(`${basename(path)}:0:-: it can not be read (${reason}). Check the path.\n`);
      return 1;
    }
    const read = readWav(bytes);
    if (!read.ok) {
      io.err(`${basename(path)}:0:-: ${read.message}\n`);
      return 1;
    }
    if (read.note !== null) io.err(`${basename(path)}:0:-: ${read.note}\n`);
    const reading = listenToWav(read.wav);
    const notes = read.note === null ? [] : [read.note];
    io.out(
      values.json === true
        ? `${JSON.stringify(asJson(reading, notes), null, 1)}\n`
        : asText(reading, basename(path)),
    );
    return 0;
  },
};

function asJson(reading: Reading, notes: readonly string[]): unknown {
  return {
    seconds: rounded(reading.heard_s, 3),
    events: reading.events.map(({ at_s, over_db }) => ({
      t: rounded(at_s, 3),
      db: rounded(over_db, 1),
    })),
    scratch_per_min: nullable(reading.scratch_per_min, 2),
    active_share: nullable(reading.active_share, 3),
    level_db: rounded(reading.level_db, 1),
    state: reading.state,
    probabilities: reading.likelihood,
    warnings: [...notes, ...reading.warnings.map(warningText)],
    usable_seconds: rounded(reading.usable_s, 2),
    warning_codes: reading.warnings,
  };
}

function asText(reading: Reading, file: string): string {
  const { state, likelihood, scratch_per_min, active_share } = reading;
  const lines = [
    `${file}: ${state}${state === 'can not tell' ? '' : ` (${percent(likelihood[state])})`}`,
    `  ${scratch_per_min === null ? 'no rate' : `${scratch_per_min.toFixed(1)} scratches a minute`}, ${reading.events.length} in all; active ${active_share === null ? 'unknown' : percent(active_share)} of the time`,
    `  ${reading.usable_s.toFixed(0)} of ${reading.heard_s.toFixed(0)} seconds counted`,
    ...reading.warnings.map((warning) => `  ! ${warningText(warning)}`),
  ];
  return `${lines.join('\n')}\n`;
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
const nullable = (value: number | null, digits: number): number | null =>
  value === null ? null : rounded(value, digits);

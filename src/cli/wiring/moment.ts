import { readTime } from '../../core/domain/instant.ts';
import { type Night, atWallClock, parseNight } from '../../core/domain/night.ts';
import type { Moment } from '../../core/forecast/forecast.ts';
import { WrongUsage, type CommandIo } from './command.ts';

/** Odds are asked for at 18:00 unless a time is given. */
const eveningAt_min = 18 * 60;

/** The night of `--night`. */
export function nightOption(text: string): Night {
  const night = parseNight(text);
  if (night !== null) return night;
  throw new WrongUsage(`--night "${text}": expected a date that exists, written like 2026-07-20.`);
}

/**
 * The moment asked about: `--night`, and `--at` or 18:00 on that date. A time without an offset
 * is read in the programme's zone; one at which that night is not is said on standard error.
 */
export function momentOf(
  night: Night,
  at: string | undefined,
  zone: string,
  io: CommandIo,
): Moment {
  if (at === undefined) return { night, at_ms: atWallClock(night, eveningAt_min, zone) };
  const time = readTime(at, zone);
  if (time === null) {
    throw new WrongUsage(`--at "${at}": expected a time written like 2026-07-20T21:30-04:00.`);
  }
  const from_ms = atWallClock(night, 720, zone);
  const to_ms = atWallClock(night + 1, 720, zone);
  if (time.at_ms < from_ms || time.at_ms >= to_ms) {
    io.err(`--at ${at} is not in the night asked for (noon to noon); it is used all the same.\n`);
  }
  return { night, at_ms: time.at_ms };
}

import { type ParseArgsConfig, parseArgs } from 'node:util';
import { isTimeZone } from '../../core/domain/night.ts';
import { WrongUsage } from './command.ts';

type Options = NonNullable<ParseArgsConfig['options']>;

/**
 * Positional arguments and `--options` of a command, as node:util reads them. Throws `WrongUsage`
 * when an option is not known or lacks its value, or when there are not `positionals` others.
 */
export function readArguments<const T extends Options>(
  args: readonly string[],
  options: T,
  positionals: readonly string[],
): {
  readonly values: ReturnType<typeof parseArgs<{ options: T }>>['values'];
  readonly at: readonly string[];
} {
  let parsed;
  try {
    parsed = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    throw new WrongUsage(error instanceof Error ? error.message : 'The arguments are not clear.');
  }
  const found = parsed.positionals;
  if (found.length < positionals.length) {
    throw new WrongUsage(`${positionals[found.length]} is missing.`);
  }
  if (found.length > positionals.length) {
    throw new WrongUsage(`"${found[positionals.length]}" is one argument too many.`);
  }
  return { values: parsed.values, at: found };
}

/** The value of an option that must be there. */
export function needed(value: string | undefined, option: string): string {
  if (value === undefined || value === '') throw new WrongUsage(`--${option} is missing.`);
  return value;
}

/** A whole number of at least `min` out of an option. */
export function wholeNumber(value: string, option: string, min: number): number {
  const number = /^\d{1,15}$/.test(value) ? Number(value) : NaN;
  if (number >= min) return number;
  throw new WrongUsage(`--${option} "${value}": expected a whole number, ${min} or more.`);
}

/** One of a list of words out of an option. */
export function oneOf<const Word extends string>(
  value: string,
  option: string,
  words: readonly Word[],
): Word {
  const word = words.find((candidate) => candidate === value);
  if (word !== undefined) return word;
  throw new WrongUsage(`--${option} "${value}": expected ${words.join(', ')}.`);
}

/** A time zone out of `--zone`, when it was given. */
export function zoneOption(value: string | undefined): string | null {
  if (value === undefined) return null;
  if (isTimeZone(value)) return value;
  throw new WrongUsage(`--zone "${value}": expected an IANA name such as America/New_York.`);
}

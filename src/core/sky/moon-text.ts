import type { MoonView } from './moon.ts';

/** From these shares of the disc on, the names of the Moon's phases (common usage). */
const newUntil = 0.02;
const crescentUntil = 0.45;
const halfUntil = 0.55;
const gibbousUntil = 0.98;

/** The Moon in words, as a field form asks for it: `waxing gibbous, 81 % lit, 34 degrees up`. */
export function moonText({ illuminatedShare, waxing, altitude_deg }: MoonView): string {
  const lit = `${Math.round(illuminatedShare * 100)} % lit`;
  const place =
    altitude_deg < 0
      ? 'below the horizon'
      : `${Math.round(altitude_deg)} degrees above the horizon`;
  return `${phaseName(illuminatedShare, waxing)}, ${lit}, ${place}`;
}

function phaseName(lit: number, waxing: boolean): string {
  if (lit < newUntil) return 'new moon';
  if (lit >= gibbousUntil) return 'full moon';
  if (lit < crescentUntil) return waxing ? 'waxing crescent' : 'waning crescent';
  if (lit < halfUntil) return waxing ? 'waxing half moon' : 'waning half moon';
  return waxing ? 'waxing gibbous' : 'waning gibbous';
}

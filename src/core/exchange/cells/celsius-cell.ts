import type { Cell } from './cell.ts';
import { numberCell } from './number-cell.ts';

/** A temperature in degrees Celsius; one that looks like Fahrenheit is said to. */
export function celsiusCell(min: number, max: number): Cell {
  const plain = numberCell('degrees Celsius', { min, max });
  return {
    expected: plain.expected,
    read: (text, context) => {
      const reading = plain.read(text, context);
      if (reading.ok || reading.advice !== 'it is too large' || Number(text) > 140) return reading;
      return { ok: false, advice: 'it looks like Fahrenheit; write degrees Celsius' };
    },
  };
}

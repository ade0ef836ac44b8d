import { lampText, readLamp } from '../../domain/lamp.ts';
import type { Cell } from './cell.ts';

/** Lamps separated by semicolons, each `kind/colour/bearing/place`. */
export const lampList: Cell = {
  expected: 'lamps written like street lamp/white/215/by the car park, separated by ;',
  read: (text) => {
    const lamps: string[] = [];
    for (const part of text.split(';')) {
      if (part.trim() === '') continue;
      const lamp = readLamp(part.trim());
      if (lamp === null) {
        const advice = `write kind, colour, bearing and place with / between; found ${part.trim()}`;
        return { ok: false, advice };
      }
      lamps.push(lampText(lamp));
    }
    return { ok: true, value: lamps.length === 0 ? null : lamps };
  },
};

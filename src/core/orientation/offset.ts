import { shortTurn_deg } from '../numerics/angle.ts';

/** How far a direction lies from the line to the sea. */
export interface Offset {
  /** 0 straight to the sea .. 180 straight inland. */
  readonly offset_deg: number;
  /** To which hand, facing the sea. */
  readonly side: 'left' | 'right' | 'neither';
}

/** The turn from the line to the sea to a direction, both degrees clockwise from true north. */
export function offsetFrom(seaward_deg: number, direction_deg: number): Offset {
  const turn = shortTurn_deg(direction_deg - seaward_deg);
  const offset_deg = Math.abs(turn);
  const isNeither = offset_deg < 1e-9 || offset_deg > 180 - 1e-9;
  return { offset_deg, side: isNeither ? 'neither' : turn < 0 ? 'left' : 'right' };
}

/** A position, degrees WGS 84. */
export interface Position {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}

/** Whether the device may be asked where it is without a question appearing on the screen. */
export type PositionLeave = 'given' | 'to be asked' | 'refused' | 'not known';

/** Where the device is. The browser's question is white: it is asked by daylight only. */
export interface PositionFinder {
  leave(): Promise<PositionLeave>;
  /** Where the device is; null without leave given before, or when it cannot tell. Asks nothing. */
  find(): Promise<Position | null>;
  /** As `find`, but the browser may ask the person first. Only from the day screen. */
  ask(): Promise<Position | null>;
}

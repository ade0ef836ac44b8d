/** Where the top of the phone points, as its sensors have it. */
export interface CompassReading {
  /** Degrees clockwise from magnetic north, 0 up to 360. */
  readonly magnetic_deg: number;
  /** How far off the device itself thinks that it may be; null when it does not say. */
  readonly accuracy_deg: number | null;
}

/** Whether the compass may be read without a question appearing on the screen. */
export type CompassLeave = 'given' | 'to be asked' | 'refused' | 'none';

/** The device's compass. The browser's question is white: it is asked by daylight only. */
export interface Compass {
  leave(): CompassLeave;
  /** Asks for leave where that is needed. Only from the day screen, and from a tap. */
  ask(): Promise<CompassLeave>;
  /** Tells every reading until the way to stop, which it gives, is called. */
  watch(told: (reading: CompassReading) => void): () => void;
}

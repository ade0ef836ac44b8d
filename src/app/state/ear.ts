/** Whether the microphone may be used without a question appearing on the screen. */
export type EarLeave = 'given' | 'to be asked' | 'refused' | 'not known';

/** Why the microphone could not be opened. */
export type EarProblem =
  'refused' | 'no microphone' | 'in use elsewhere' | 'not possible here' | 'failed';

/** What changed the sound although it was asked not to. */
export type LeftOn = 'echo cancellation' | 'noise suppression' | 'automatic gain';

/** What happens to an ear that is open. */
export type EarNews = 'unplugged' | 'interrupted' | 'resumed';

export type OpenedEar =
  | {
      readonly ok: true;
      readonly rate_hz: number;
      readonly leftOn: readonly LeftOn[];
      close(): void;
    }
  | { readonly ok: false; readonly problem: EarProblem };

/** The microphone of the device. The browser's question is white: it is asked by daylight only. */
export interface Ear {
  leave(): Promise<EarLeave>;
  /** Samples are mono, -1 to 1; nothing is kept. */
  open(samples: (block: Float32Array) => void, news: (what: EarNews) => void): Promise<OpenedEar>;
  /** A recording in any form that the browser knows; null when it knows it not. */
  decode(
    bytes: ArrayBuffer,
  ): Promise<{ readonly samples: Float32Array; readonly rate_hz: number } | null>;
}

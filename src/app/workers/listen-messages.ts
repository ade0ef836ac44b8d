import type { TracePoint } from '../../core/acoustics/trace.ts';
import type { Reading } from '../../core/acoustics/reading.ts';

/** From the page to the one who analyses. */
export type ToAnalyst =
  | { readonly kind: 'start'; readonly listening: number; readonly rate_hz: number }
  | { readonly kind: 'samples'; readonly block: Float32Array }
  | { readonly kind: 'finish' };

/** Back to the page: what was found so far, a few times a second and at the end. */
export interface FromAnalyst {
  /** The listening it belongs to, as `start` numbered it. */
  readonly listening: number;
  readonly reading: Reading;
  /** New since the last. */
  readonly trace: readonly TracePoint[];
  readonly isFinal: boolean;
}

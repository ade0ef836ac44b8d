import Meyda from 'meyda';
import { analysisRate_hz } from './analysis-rate.ts';

/** Samples of one long frame: 64 ms, long enough for the pitch of a low voice. */
export const longFrame = 1024;

// Meyda keeps its settings on one shared object: they are set here and nowhere else. Level and zero
// crossings must not be taken under a window, so the frame is handed over with 'rect'.
Meyda.bufferSize = longFrame;
Meyda.sampleRate = analysisRate_hz;
Meyda.windowingFunction = 'rect';

/** What a long frame sounds like. */
export interface LongFeatures {
  /** Root of the mean square of the samples. */
  readonly rms: number;
  /** Mean frequency, weighted by the magnitude spectrum of the frame without a window. */
  readonly centroid_hz: number;
  /** Geometric over arithmetic mean of that magnitude spectrum; 1 for white, near 0 for a tone. */
  readonly flatness: number;
}

/** Null for a frame of digital silence, which has no spectrum. */
export function longFeatures(samples: Float32Array): LongFeatures | null {
  if (samples.every((sample) => sample === 0)) return null;
  const found = Meyda.extract(['rms', 'spectralCentroid', 'spectralFlatness'], samples);
  if (found === null) return null;
  const { rms = 0, spectralCentroid = 0, spectralFlatness = 0 } = found;
  return {
    rms,
    // Meyda gives bins.
    centroid_hz: (spectralCentroid * analysisRate_hz) / longFrame,
    flatness: Number.isFinite(spectralFlatness) ? spectralFlatness : 0,
  };
}

import library from 'essentia.js';

/** Features by an outside library (AGPL: for tests only, never shipped). */
export function essentia() {
  const { Essentia, EssentiaWASM } = library;
  const tools = new Essentia(EssentiaWASM);
  const vector = (samples: Float32Array) => tools.arrayToVector(samples);
  return {
    rms: (samples: Float32Array): number => tools.RMS(vector(samples)).rms,
    /** Magnitudes of the bins 0 .. half the length. */
    spectrum: (samples: Float32Array): Float32Array =>
      tools.vectorToArray(tools.Spectrum(vector(samples), samples.length).spectrum),
    /** The first bin lies at 0, the last at `range`. */
    centroid: (spectrum: Float32Array, range: number): number =>
      tools.Centroid(vector(spectrum), range).centroid,
    flatness: (spectrum: Float32Array): number => tools.Flatness(vector(spectrum)).flatness,
  };
}

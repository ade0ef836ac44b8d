/** The little of essentia.js that the reference tests use; the package brings no types for its entry. */
declare module 'essentia.js' {
  interface Vector {
    delete(): void;
  }
  interface Essentia {
    arrayToVector(samples: Float32Array): Vector;
    vectorToArray(vector: Vector): Float32Array;
    RMS(samples: Vector): { readonly rms: number };
    Spectrum(samples: Vector, size: number): { readonly spectrum: Vector };
    Centroid(spectrum: Vector, range: number): { readonly centroid: number };
    Flatness(spectrum: Vector): { readonly flatness: number };
  }
  const library: {
    readonly Essentia: new (wasm: unknown) => Essentia;
    readonly EssentiaWASM: unknown;
  };
  export default library;
}

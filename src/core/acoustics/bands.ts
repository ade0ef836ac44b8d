import { analysisRate_hz, frameSize } from './analysis-rate.ts';

/** Hertz of one bin of a short frame. */
export const bin_hz = analysisRate_hz / frameSize;

/**
 * Edges of the bands, Hz, on whole bins. The first three hold thumps, wind, surf and the ground note of voices;
 * the others the scratching, each a good third of an octave wide (G). Nothing above 6.6 kHz.
 */
const edges_hz = [
  62.5, 187.5, 375, 562.5, 812.5, 1125, 1500, 2000, 2562.5, 3312.5, 4187.5, 5312.5, 6625,
];
export const bandCount = edges_hz.length - 1;
/** The first band in which scratches are looked for. */
export const firstScratchBand = 2;
/** The first above 2.6 kHz, where a stethoscope passes nothing. */
export const firstUpperBand = 8;
export const scratchBands = bandCount - firstScratchBand;
const firstBins = edges_hz.map((edge) => Math.round(edge / bin_hz));

/** Least power of a band, for digital silence: below the rounding noise of 16 bits. */
const leastPower = 1e-12;

/** Mean power of the bins of each band, into `into`; `power` is by bin of a short frame. */
export function bandPowers(power: Float64Array, into: Float64Array): void {
  for (let band = 0; band < bandCount; band++) {
    const first = firstBins[band]!;
    const end = firstBins[band + 1]!;
    let sum = 0;
    for (let bin = first; bin < end; bin++) sum += power[bin]!;
    into[band] = Math.max(leastPower, sum / (end - first));
  }
}

/** The bins of a band: from the first, up to but without the last. */
export function bandBins(band: number): { readonly from: number; readonly to: number } {
  return { from: firstBins[band]!, to: firstBins[band + 1]! };
}

/** Bins in each band. */
export const binsIn = Float64Array.from({ length: bandCount }, (_, band) => {
  const { from, to } = bandBins(band);
  return to - from;
});

/** Power of a band and all above it, of the mean powers of the bands. */
export function energyFrom(powers: ArrayLike<number>, first: number): number {
  let sum = 0;
  for (let band = first; band < bandCount; band++) sum += powers[band]! * binsIn[band]!;
  return sum;
}

import { bandCount, bandBins, firstScratchBand } from './bands.ts';

/**
 * How noise-like a spectrum is inside its bands: geometric over arithmetic mean of the bins of each
 * band, the bands weighted by `weights`. The tilt of a microphone or tube does not matter. Near 1
 * for a smooth spectrum, some 0.6-0.8 for noise seen for a moment, below for tones.
 */
export function smoothness(power: Float64Array, weights: Float64Array): number {
  let [sum, total] = [0, 0];
  for (let band = firstScratchBand; band < bandCount; band++) {
    const weight = weights[band]!;
    if (weight <= 0) continue;
    const { from, to } = bandBins(band);
    let [log, mean] = [0, 0];
    for (let bin = from; bin < to; bin++) {
      const value = power[bin]! + 1e-20;
      log += Math.log(value);
      mean += value;
    }
    const bins = to - from;
    sum += weight * (Math.exp(log / bins) / (mean / bins));
    total += weight;
  }
  return total === 0 ? 1 : sum / total;
}

/** A power in decibels; nothing is -140. */
export const decibels = (power: number): number => 10 * Math.log10(power + 1e-14);

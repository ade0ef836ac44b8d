import type { Nest } from '../domain/nest.ts';

/** Eggs of a clutch that was not counted (guess near published means). */
export const untoldClutch_eggs = 100;
/** Share of a clutch that comes out of a nest that boils, until the programme says (guess). */
export const expectedSuccess = 0.7;

/** Hatchlings that a nest is expected to give if it boils. */
export function hatchlingsOf({ clutch_eggs }: Pick<Nest, 'clutch_eggs'>, success: number): number {
  return (clutch_eggs ?? untoldClutch_eggs) * success;
}

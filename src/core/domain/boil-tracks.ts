import type { Programme } from './programme.ts';

/** Tracks at dawn, or hatchlings in a watch, from which the boil has happened (site setting; guess). */
const defaultBoilTracks = 10;

/** From how many hatchlings or their tracks on a beach takes the boil to have happened. */
export function boilTracksOf({ boil_tracks }: Programme): number {
  return boil_tracks ?? defaultBoilTracks;
}

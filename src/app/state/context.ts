import { getContext } from 'svelte';
import type { App } from './app.ts';
import type { SeasonState } from './season-state.svelte.ts';

/** Keys of the two contexts that the shell sets; tests set them through `render(..., { context })`. */
export const appKey = Symbol('app');
export const seasonKey = Symbol('season');

/** The app, while a component starts. */
export function useApp(): App {
  return required<App>(appKey);
}

/** The season that is open, while a component of one of its screens starts. */
export function useSeason(): SeasonState {
  return required<SeasonState>(seasonKey);
}

function required<Value>(key: symbol): Value {
  const value = getContext<Value | undefined>(key);
  if (value === undefined)
    throw new Error(`Draw this inside the shell: ${String(key)} is not set.`);
  return value;
}

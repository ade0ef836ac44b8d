import { screen } from '@testing-library/svelte';
import { flushSync } from 'svelte';

/** Taps the button of a name, and lets what follows be drawn. */
export function tap(name: string | RegExp): void {
  screen.getByRole('button', { name }).click();
  flushSync();
}

/** Types into the field of a label in place of what stands there, and lets what follows be drawn. */
export function type(label: string | RegExp, text: string): void {
  const field = screen.getByLabelText<HTMLInputElement>(label);
  field.value = text;
  field.dispatchEvent(new Event('input', { bubbles: true }));
  flushSync();
}

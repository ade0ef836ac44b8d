/**
 * Makes things as part of no component, though one may ask for it: a component that goes takes along
 * what was derived within it, and what outlives it would be told of no change any more.
 */
export function outsideComponents(make: () => void): void {
  $effect.root(make);
}

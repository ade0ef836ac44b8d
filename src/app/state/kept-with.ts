import { outsideComponents } from './outside-components.svelte.ts';

/**
 * Things kept for as long as what they belong to is there, one for each key: made when first asked
 * for, the same every time after.
 */
export function keptWith<Owner extends object, Value>(): (
  owner: Owner,
  key: string,
  make: () => Value,
) => Value {
  const held = new WeakMap<Owner, Map<string, Value>>();
  return (owner, key, make) => {
    const kept = held.get(owner) ?? new Map<string, Value>();
    held.set(owner, kept);
    if (!kept.has(key)) {
      outsideComponents(() => {
        kept.set(key, make());
      });
    }
    const value = kept.get(key);
    if (value === undefined) throw new Error(`Nothing was made for "${key}".`);
    return value;
  };
}

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
    let ofOwner = held.get(owner);
    if (ofOwner === undefined) held.set(owner, (ofOwner = new Map<string, Value>()));
    let value = ofOwner.get(key);
    if (value === undefined) ofOwner.set(key, (value = make()));
    return value;
  };
}

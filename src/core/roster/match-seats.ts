/**
 * A seat for as many as can have one, each seat for one: for every seat the index of who takes it, or
 * null. `fits[seat]` lists who may. Kuhn's augmenting paths; the earlier in a list the likelier.
 */
export function matchSeats(fits: readonly (readonly number[])[]): readonly (number | null)[] {
  const seatOf = new Map<number, number>();
  const seatFor = (seat: number, tried: Set<number>): boolean => {
    for (const person of fits[seat] ?? []) {
      if (tried.has(person)) continue;
      tried.add(person);
      const other = seatOf.get(person);
      if (other === undefined || seatFor(other, tried)) {
        seatOf.set(person, seat);
        return true;
      }
    }
    return false;
  };
  for (const seat of fits.keys()) seatFor(seat, new Set());
  const taken = new Map([...seatOf].map(([person, seat]) => [seat, person]));
  return fits.map((_, seat) => taken.get(seat) ?? null);
}

import type { NestId } from '../../../core/domain/nest.ts';
import { byName } from './shore-order.ts';

/** The digits in a nest's name: `W-014` gives `014`. */
export function digitsOf(nest: string): string {
  return nest.replace(/\D/g, '');
}

/**
 * The nests meant by some typed digits: those whose number is just that first (`14` finds W-014),
 * then those whose number goes on from it (`14` finds W-140). Leading zeros are free. Nothing
 * typed finds nothing.
 */
export function nestsByDigits(nests: Iterable<NestId>, typed: string): readonly NestId[] {
  const wanted = plain(typed);
  if (typed === '') return [];
  const exact: NestId[] = [];
  const longer: NestId[] = [];
  for (const nest of nests) {
    const digits = digitsOf(nest);
    if (digits === '') continue;
    if (plain(digits) === wanted) exact.push(nest);
    else if (plain(digits).startsWith(wanted) || digits.startsWith(typed)) longer.push(nest);
  }
  return [...exact.sort(byName), ...longer.sort(byName)];
}

const plain = (digits: string): string => digits.replace(/^0+/, '');

/** The digits that lead on to at least one nest after those typed, so that the rest can be dimmed. */
export function nextDigits(nests: Iterable<NestId>, typed: string): ReadonlySet<string> {
  const all = [...nests];
  const next = new Set<string>();
  for (const digit of '0123456789') {
    if (nestsByDigits(all, typed + digit).length > 0) next.add(digit);
  }
  return next;
}

import type { EmergenceTotal } from '../../../core/emergence/emergence-total.ts';
import type { WayStep } from '../../../core/domain/visit.ts';
import { hourText } from '../note/words.ts';
import { listWords } from '../../../core/domain/locale.ts';

/** What each step of the way to the water asks for. Nobody is asked to dig or to touch a nest. */
export const stepWords: Readonly<Record<WayStep, { label: string; detail: string }>> = {
  holes: { label: 'Holes filled', detail: 'between nest and water, outside the marked area' },
  gear: { label: 'Gear off the beach', detail: 'chairs, tents, toys, nets' },
  lamps: { label: 'Lamps noted', detail: 'which ones can be seen from here' },
  people: { label: 'People told', detail: 'stay back, no light, no flash' },
};

/** What came up in one night in words: `79 came up, 21:12 to 21:41; 70 reached the water, 1 astray`. */
export function totalWords(total: EmergenceTotal, zone: string): string {
  const { emerged, first_ms, last_ms, reachedWater, astray, taken, unfollowed } = total;
  const from = first_ms === null ? null : hourText(first_ms, zone);
  const to = last_ms === null ? null : hourText(last_ms, zone);
  const when =
    from === null ? '' : to === null || to === from ? `, at ${from}` : `, ${from} to ${to}`;
  const ends = [
    counted(reachedWater, 'reached the water'),
    counted(astray, 'went astray'),
    counted(taken, 'taken by animals'),
    unfollowed === 0 ? null : counted(unfollowed, 'not followed'),
  ].filter((part) => part !== null);
  return `${emerged} came up${when}${ends.length === 0 ? '' : `; ${ends.join(', ')}`}`;
}

function counted(count: number | null, what: string): string | null {
  return count === null ? null : `${count} ${what}`;
}

/** How the counts of several were put together, said to those who counted; empty for a single one. */
export function basisWords({ basis, counters }: EmergenceTotal): string {
  const names = listWords(counters);
  switch (basis) {
    case 'one count':
      return names === '' ? '' : `counted by ${names}`;
    case 'parts added':
      return `each one’s part added up${names === '' ? '' : `: ${names}`}`;
    case 'largest count of the whole':
      return `the largest of several counts of all of them${names === '' ? '' : `: ${names}`}`;
  }
}

import type { Night } from '../../../core/domain/night.ts';
import type { Outcome } from '../../../core/season-report/nest-outcome.ts';
import type { Mishap } from '../../../core/domain/visit.ts';
import type { SeasonInShort } from '../../../core/season-report/season-in-short.ts';
import type { SeasonWindow } from '../../../core/season-report/season-window.ts';
import { dayMonthText } from '../../../core/domain/night-text.ts';
import { fixedText, numberText } from '../../../core/domain/locale.ts';

/** The outcomes in the order in which they are told. */
export const outcomeOrder: readonly Outcome['kind'][] = [
  'met',
  'missed',
  'unseen',
  'lost',
  'never',
  'not told',
  'waiting',
];

/** What an outcome means, in words. */
export function outcomeWords(kind: Outcome['kind']): string {
  switch (kind) {
    case 'met':
      return 'Met: somebody counted there';
    case 'missed':
      return 'Missed: only tracks told';
    case 'unseen':
      return 'Unseen: shells in the inventory';
    case 'lost':
      return 'Taken by the sea';
    case 'never':
      return 'No shell in the inventory';
    case 'not told':
      return 'Inventoried, shells not counted';
    case 'waiting':
      return 'Still waiting';
  }
}

/** A cause of loss in words; null = none noted. */
export function causeWords(cause: Mishap | null): string {
  switch (cause) {
    case 'washover':
      return 'Washed over';
    case 'washout':
      return 'Washed out';
    case 'predation':
      return 'Predation';
    case 'burial':
      return 'Buried by a storm';
    case null:
      return 'Lost, no cause noted';
  }
}

/** `38 %`, `4.2 %`: a share that was counted. */
export function shareText(share: number): string {
  const percent = 100 * share;
  return `${percent > 0 && percent < 10 ? fixedText(percent, 1) : fixedText(percent, 0)} %`;
}

/** `54.3`, `54`: one decimal, and none where it is whole. */
export function decimalText(value: number): string {
  return numberText(Number(value.toFixed(1)));
}

/** `2025`, `2025 to 2026`; `year not known`. */
export function yearsText({ years }: SeasonInShort): string {
  if (years === null) return 'year not known';
  return years.from === years.to ? String(years.from) : `${years.from} to ${years.to}`;
}

/** What part of the season is shown, as a sentence for paper. */
export function windowText({ zone, from, to, by }: SeasonWindow): string {
  const where = zone === null ? 'All zones' : `Zone ${zone}`;
  const what = by === 'laid' ? /* @wc-include */ 'laid' : 'with what happened';
  const day = (night: Night): string => dayMonthText(night);
  if (from === null && to === null) return `${where}, the whole season.`;
  if (from === null) return `${where}, ${what} up to ${to === null ? '' : day(to)}.`;
  if (to === null) return `${where}, ${what} from ${day(from)} on.`;
  return `${where}, ${what} from ${day(from)} to ${day(to)}.`;
}

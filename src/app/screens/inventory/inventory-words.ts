import type { Night } from '../../../core/domain/night.ts';
import type { InventoryDue } from '../../../core/inventory/inventory-due.ts';
import type { DayRule } from '../../../core/inventory/inventory-rules.ts';
import type { Category } from '../../../core/inventory/success.ts';
import { nightText } from '../../../core/domain/night-text.ts';
import { fixedText } from '../../../core/domain/locale.ts';

export const categoryWords: Readonly<Record<Category, { label: string; detail: string }>> = {
  shells: { label: 'Shells', detail: 'empty, more than half of an egg' },
  unhatched: { label: 'Unhatched eggs', detail: 'whole, nothing came out' },
  pipped_live: { label: 'Pipped alive', detail: 'shell broken, hatchling in it' },
  pipped_dead: { label: 'Pipped dead', detail: 'shell broken, hatchling in it' },
  live_in_nest: { label: 'Alive in the nest', detail: 'out of the shell' },
  dead_in_nest: { label: 'Dead in the nest', detail: 'out of the shell' },
  depredated: { label: 'Depredated', detail: 'eggs that animals opened' },
};

/** Where a rule comes from, in words. */
export function ruleWords({ days, source }: DayRule): string {
  return `${days} ${days === 1 ? /* @wc-include */ 'day' : /* @wc-include */ 'days'}, ${source}`;
}

/** When a nest is counted and why then. */
export function dueWords(due: InventoryDue, today: Night): string {
  switch (due.kind) {
    case 'counted':
      return `counted on ${nightText(due.on)}`;
    case 'washed out':
      return `the sea took it, ${nightText(due.on)}`;
    case 'not known':
      return due.why;
    case 'due': {
      const by = `${due.rule.days} days after ${due.from === 'boil' ? 'the boil' : 'the lay night, as no boil is known'}`;
      const putOff = due.putOff ? ', put off while hatchlings were still seen' : '';
      return `${dueDay(due.on, today)}: ${by}${putOff}`;
    }
  }
}

function dueDay(on: Night, today: Night): string {
  const days = on - today;
  if (days === 0) return 'due today';
  if (days > 0)
    return `due ${nightText(on)}, in ${days} ${days === 1 ? /* @wc-include */ 'day' : /* @wc-include */ 'days'}`;
  return `overdue since ${nightText(on)}, ${-days} ${days === -1 ? /* @wc-include */ 'day' : /* @wc-include */ 'days'}`;
}

/** `87.9 %`; a dash when it is not to be said. */
export function shareText(share: number | null): string {
  return share === null ? '–' : `${fixedText(100 * share, 1)} %`;
}

import type { RosterGoal } from '../../../core/domain/roster.ts';
import type { Candidate } from '../../../core/roster/candidates.ts';
import type { Roster } from '../../../core/roster/plan.ts';
import { fixedText } from '../../../core/domain/locale.ts';

/** `2.3`, `0.04`: boils or hatchlings to be expected. */
export function worthText(value: number, goal: RosterGoal): string {
  if (goal === 'hatchlings') return value < 10 ? fixedText(value, 1) : fixedText(value, 0);
  return value < 0.1 ? fixedText(value, 2) : fixedText(value, 1);
}

export function goalWords(goal: RosterGoal): string {
  return goal === 'boils' ? 'boils met' : 'hatchlings kept from going astray';
}

/** How good a plan is, in a sentence. */
export function proofWords({ plan, bound, gap }: Roster, goal: RosterGoal): string {
  if (gap < 0.0005) return 'No plan can bring more.';
  const more = worthText(bound, goal);
  const share = fixedText(gap * 100, 1);
  return plan.value === 0
    ? `No plan can bring more than ${more}.`
    : `The best plan could bring ${share} % more at most (${more}).`;
}

/** What stands beside somebody's name among those who could sit at a post. */
export function standingWords({ standing, at, experienced, shifts }: Candidate): string {
  const parts = [
    experienced ? /* @wc-include */ 'trained or lead' : /* @wc-include */ 'novice',
    `${shifts} ${shifts === 1 ? /* @wc-include */ 'shift' : /* @wc-include */ 'shifts'} this season`,
  ];
  switch (standing) {
    case 'here':
    case 'free':
      break;
    case 'elsewhere':
      parts.unshift(`sits at ${at ?? 'another post'}`);
      break;
    case 'had a night':
      parts.unshift('sits the night before or after');
      break;
    case 'no shift left':
      parts.unshift('no shift left that week');
      break;
    case 'other zone':
      parts.unshift('sits in another zone');
      break;
    case 'not offered':
      parts.unshift('has not offered this night');
      break;
  }
  return parts.join(' · ');
}

import type { SeasonEvent } from '../../core/domain/event.ts';
import type { Role } from '../access/role.ts';

type Fact = Exclude<SeasonEvent['kind'], 'corrected' | 'withdrawn'>;

/** Who writes what. A lead writes everything, a reader nothing; a permit holder all that a sitter does. */
const writtenBy: Readonly<Record<Fact, 'sitter' | 'permit holder' | 'lead'>> = {
  'visit-noted': 'sitter',
  'orientation-recorded': 'sitter',
  'availability-given': 'sitter',
  'weekly-pattern-given': 'sitter',
  'nest-registered': 'permit holder',
  'inventory-recorded': 'permit holder',
  'conditions-noted': 'permit holder',
  'programme-described': 'lead',
  'table-laid-out': 'lead',
  'volunteer-enrolled': 'lead',
  'sight-judged': 'lead',
  pinned: 'lead',
  'night-published': 'lead',
};

const rank: Readonly<Record<Role, number>> = { reader: 0, sitter: 1, 'permit holder': 2, lead: 3 };

/** Whether a role may write, correct and withdraw what is of a kind. A kind from a newer version is open to all but readers. */
export function mayWrite(role: Role, kind: string): boolean {
  return rank[role] >= rank[isFact(kind) ? writtenBy[kind] : 'sitter'];
}

function isFact(kind: string): kind is Fact {
  return Object.hasOwn(writtenBy, kind);
}

/** What a role may not do, and who may. */
export function rightsText(role: Role, kind: string): string {
  if (role === 'reader') {
    return 'This device may read and not write. Ask the lead for an invitation with more rights.';
  }
  const needed = isFact(kind) ? writtenBy[kind] : 'sitter';
  const who = needed === 'lead' ? 'a lead' : `a ${needed} or a lead`;
  return `A ${role} does not write this (${kind}): it takes ${who}. Hand it to one of them, or ask for more rights.`;
}

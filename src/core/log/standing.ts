import { type AmendmentsByTarget, treeOf } from './amendment-tree.ts';
import { correct } from './correct.ts';
import { inOrderOfWriting } from './order.ts';
import type { AmendingEvent, Amendment, Fact, Fallen, Standing } from './season-record.ts';

/**
 * A fact with its corrections laid on in the order they were written, and whether it still stands.
 *
 * - It is withdrawn while a withdrawal of it holds. A withdrawal can be withdrawn in turn.
 * - A correction of a correction speaks of the same fact, and falls with the one it speaks of.
 * - A correction whose values cannot be read is kept in the history but does not hold.
 */
export function standing<F extends Fact>(original: F, amendments: AmendmentsByTarget): Standing<F> {
  if (!amendments.has(original.id)) {
    return { fact: original, original, amendments: [], withdrawn: false };
  }
  const tree = treeOf(original.id, amendments);
  const withdrawn = withdrawnIn(tree);
  const fallen = fallenIn(original, tree, withdrawn);
  let fact = original;
  const laidOn = inOrderOfWriting(tree, (event) => event).map((event) => {
    const why = fallen.get(event.id);
    if (why !== undefined) return fell(event, why);
    if (event.kind === 'withdrawn') return { event, holds: true };
    const outcome = correct(fact, event.changes);
    if (!outcome.ok) return fell(event, { kind: 'unreadable', message: outcome.message });
    fact = outcome.fact;
    const { ignored } = outcome;
    return ignored.length === 0 ? { event, holds: true } : { event, holds: true, ignored };
  });
  return { fact, original, amendments: laidOn, withdrawn: withdrawn.has(original.id) };
}

const fell = (event: AmendingEvent, fallen: Fallen): Amendment => ({ event, holds: false, fallen });

/** The ids that a withdrawal which holds speaks of. The last of a chain of withdrawals decides. */
function withdrawnIn(tree: readonly AmendingEvent[]): ReadonlySet<string> {
  const withdrawn = new Set<string>();
  for (const event of [...tree].reverse()) {
    if (event.kind === 'withdrawn' && !withdrawn.has(event.id)) withdrawn.add(event.target);
  }
  return withdrawn;
}

/** Those that do not hold whatever their values are, and why. */
function fallenIn(
  original: Fact,
  tree: readonly AmendingEvent[],
  withdrawn: ReadonlySet<string>,
): ReadonlyMap<string, Fallen> {
  const fallen = new Map<string, Fallen>();
  const above = new Map(tree.map((event) => [event.id, event]));
  for (const event of tree) {
    if (withdrawn.has(event.id)) {
      fallen.set(event.id, { kind: 'withdrawn' });
    } else if (event.kind === 'corrected' && event.target !== original.id) {
      const target = above.get(event.target);
      if (target?.kind === 'withdrawn') fallen.set(event.id, { kind: 'corrects a withdrawal' });
      else if (fallen.has(event.target)) fallen.set(event.id, { kind: 'under one that fell' });
    }
  }
  return fallen;
}

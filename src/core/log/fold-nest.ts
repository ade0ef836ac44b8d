import type { EventId } from '../domain/event.ts';
import type { NestId } from '../domain/nest.ts';
import type { AmendmentsByTarget } from './amendment-tree.ts';
import { nestOf, visitOf } from './as-domain.ts';
import { byId, inOrderOfWriting } from './order.ts';
import { duplicateProblem, problemsOf } from './problems.ts';
import type { FactOf, NestFact, NestRecord, RecordProblem, Standing } from './season-record.ts';
import { standing } from './standing.ts';

/** What follows from the facts that speak of one nest. */
export interface FoldedNest {
  /** Null while no registration of it stands. */
  readonly record: NestRecord | null;
  /** Its standing facts when there is no record for them to be in. */
  readonly unplaced: readonly Standing[];
  readonly problems: readonly RecordProblem[];
}

/**
 * One nest from the facts that speak of it, in any order, in a programme's time zone. Of several
 * registrations that stand, the one written first counts and the others are a problem.
 */
export function foldNest(
  id: NestId,
  facts: readonly NestFact[],
  amendments: AmendmentsByTarget,
  zone: string,
): FoldedNest {
  const entries = [...facts].sort(byId).map((fact) => standing(fact, amendments));
  const problems = entries.flatMap(problemsOf);
  const stand = entries.filter((entry) => !entry.withdrawn);
  const [registration, ...again] = inOrderOfWriting(
    entriesOf(stand, 'nest-registered'),
    ({ original }) => original,
  );
  if (registration === undefined) return { record: null, unplaced: stand, problems };
  problems.push(...again.map((entry) => duplicateProblem(id, entry.original.id)));
  const record = recordOf(registration, entries, stand, zone);
  return { record, unplaced: [], problems };
}

function recordOf(
  registration: Standing<FactOf<'nest-registered'>>,
  entries: readonly Standing<NestFact>[],
  stand: readonly Standing<NestFact>[],
  zone: string,
): NestRecord {
  const notes = entriesOf(entries, 'visit-noted');
  const visits = entriesOf(stand, 'visit-noted').map(({ fact }) => visitOf(fact, zone));
  return {
    nest: nestOf(registration.fact),
    registration,
    visits: visits.sort((a, b) => a.at_ms - b.at_ms || byId(a, b)),
    notes: new Map<EventId, Standing<FactOf<'visit-noted'>>>(
      notes.map((entry) => [entry.original.id, entry]),
    ),
    orientations: entriesOf(stand, 'orientation-recorded'),
    inventories: entriesOf(stand, 'inventory-recorded'),
  };
}

function entriesOf<Kind extends NestFact['kind']>(
  entries: readonly Standing<NestFact>[],
  kind: Kind,
): Standing<FactOf<Kind>>[] {
  return entries.filter((entry): entry is Standing<FactOf<Kind>> => entry.fact.kind === kind);
}

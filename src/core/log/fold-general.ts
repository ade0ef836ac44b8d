import type { EventOf, TableName } from '../domain/event.ts';
import { byId, inOrderOfWriting } from './order.ts';
import { problemsOf } from './problems.ts';
import type {
  FactOf,
  GeneralFact,
  RecordProblem,
  SeasonRecord,
  Standing,
} from './season-record.ts';

/** What a season holds besides its nests. */
export type General = Pick<
  SeasonRecord,
  | 'programme'
  | 'conditions'
  | 'volunteers'
  | 'availability'
  | 'weeklyPatterns'
  | 'sights'
  | 'pins'
  | 'published'
  | 'layouts'
> & { readonly problems: readonly RecordProblem[] };

/** The season's own facts, from all of them in any order. Lists are in the order of event ids. */
export function foldGeneral(entries: Iterable<Standing<GeneralFact>>): General {
  const all = [...entries].sort((a, b) => byId(a.original, b.original));
  const live = all.filter((entry) => !entry.withdrawn);
  const latest = new Map<string, Standing<GeneralFact>>();
  for (const entry of inOrderOfWriting(live, ({ original }) => original)) {
    latest.set(subjectOf(entry.fact), entry);
  }
  const current = live.filter((entry) => latest.get(subjectOf(entry.fact)) === entry);
  return {
    programme: entriesOf(current, 'programme-described')[0]?.fact.programme ?? {},
    conditions: entriesOf(live, 'conditions-noted'),
    volunteers: entriesOf(current, 'volunteer-enrolled'),
    availability: entriesOf(live, 'availability-given'),
    weeklyPatterns: entriesOf(current, 'weekly-pattern-given'),
    sights: entriesOf(current, 'sight-judged'),
    pins: entriesOf(current, 'pinned'),
    published: entriesOf(current, 'night-published'),
    layouts: layoutsOf(entriesOf(current, 'table-laid-out')),
    problems: all.flatMap(problemsOf),
  };
}

/** Of most things there is one (a programme, a person, a plan for a night): what was written last counts. */
function subjectOf(fact: GeneralFact): string {
  switch (fact.kind) {
    case 'programme-described':
      return fact.kind;
    case 'volunteer-enrolled':
    case 'weekly-pattern-given':
      return `${fact.kind} ${fact.volunteer}`;
    case 'sight-judged':
      return `${fact.kind} ${JSON.stringify([...fact.details.nests].sort())}`;
    case 'pinned': {
      const { night, watch, at_nest, volunteer } = fact.details;
      return `${fact.kind} ${JSON.stringify([night, watch, at_nest, volunteer ?? null])}`;
    }
    case 'night-published':
      return `${fact.kind} ${fact.details.night}`;
    case 'table-laid-out':
      return `${fact.kind} ${fact.table}`;
    case 'conditions-noted':
    case 'availability-given':
      return `${fact.kind} ${fact.id}`;
  }
}

function layoutsOf(
  entries: readonly Standing<FactOf<'table-laid-out'>>[],
): ReadonlyMap<TableName, EventOf<'table-laid-out'>> {
  return new Map(entries.map(({ fact }) => [fact.table, fact]));
}

function entriesOf<Kind extends GeneralFact['kind']>(
  entries: readonly Standing<GeneralFact>[],
  kind: Kind,
): Standing<FactOf<Kind>>[] {
  return entries.filter((entry): entry is Standing<FactOf<Kind>> => entry.fact.kind === kind);
}

import type { EventOf, SeasonEvent, TableName } from '../domain/event.ts';
import type { NestId } from '../domain/nest.ts';
import { type AmendingEvent, standing } from './amend.ts';
import { foldNest } from './fold-nest.ts';
import { byWriting, writtenAt } from './order.ts';
import type {
  Fact,
  FactOf,
  NestRecord,
  RecordProblem,
  SeasonRecord,
  Standing,
} from './season-record.ts';

/** Read nights and times by this zone until a programme says otherwise. */
const UNTOLD_ZONE = 'UTC';

/** What the fold keeps to go on from: the facts by nest, the rest by kind, the amendments by target. */
interface Sorted {
  readonly byNest: Map<NestId, Fact[]>;
  readonly general: Fact[];
  readonly amendments: Map<string, AmendingEvent[]>;
}

/**
 * The season that follows from a set of events: the same for any order and any repeats.
 * `fallbackZone` is the IANA zone when no programme event names one.
 */
export function fold(events: Iterable<SeasonEvent>, fallbackZone = UNTOLD_ZONE): SeasonRecord {
  return foldOn(null, events, fallbackZone);
}

/**
 * The season after some more events. Gives what `fold` gives for all of them together, but nests
 * that none of the new events speaks of keep their identity, so that what was computed from them
 * still holds.
 */
export function foldOn(
  before: SeasonRecord | null,
  added: Iterable<SeasonEvent>,
  fallbackZone = UNTOLD_ZONE,
): SeasonRecord {
  const events = new Map(before?.events ?? []);
  const fresh: SeasonEvent[] = [];
  for (const event of added) {
    if (events.has(event.id)) continue;
    events.set(event.id, event);
    fresh.push(event);
  }
  if (before !== null && fresh.length === 0) return before;
  const sorted = sortOut(events.values());
  const general = sorted.general.map((fact) => standing(fact, sorted.amendments));
  const live = general.filter((entry) => !entry.withdrawn);
  const programme = latest(live, 'programme-described')?.fact.programme ?? {};
  const zone = programme.time_zone ?? fallbackZone;
  const touched = before === null || before.zone !== zone ? null : touchedNests(fresh, events);
  const { nests, unplaced, problems } = foldNests(sorted, zone, before, touched);
  return {
    programme,
    zone,
    nests,
    unplaced,
    conditions: inOrder(live, 'conditions-noted'),
    volunteers: enrolled(inOrder(live, 'volunteer-enrolled')),
    availability: inOrder(live, 'availability-given'),
    layouts: layouts(live),
    events,
    problems: [...problems, ...amendmentProblems(sorted, events)],
  };
}

function sortOut(events: Iterable<SeasonEvent>): Sorted {
  const sorted: Sorted = { byNest: new Map(), general: [], amendments: new Map() };
  for (const event of events) {
    switch (event.kind) {
      case 'corrected':
      case 'withdrawn':
        push(sorted.amendments, event.target, event);
        break;
      case 'nest-registered':
      case 'visit-noted':
      case 'orientation-recorded':
      case 'inventory-recorded':
        push(sorted.byNest, event.nest, event);
        break;
      case 'programme-described':
      case 'table-laid-out':
      case 'conditions-noted':
      case 'volunteer-enrolled':
      case 'availability-given':
        sorted.general.push(event);
        break;
    }
  }
  moveCorrected(sorted);
  return sorted;
}

/** A fact whose nest was corrected belongs to the nest it was corrected to. */
function moveCorrected({ byNest, amendments }: Sorted): void {
  const wanted = new Set<string>();
  for (const [target, list] of amendments) {
    if (list.some((event) => event.kind === 'corrected' && 'nest' in event.changes)) {
      wanted.add(target);
    }
  }
  if (wanted.size === 0) return;
  const moves: [NestId, NestId, Fact][] = [];
  for (const [nest, facts] of byNest) {
    for (const fact of facts) {
      if (!wanted.has(fact.id)) continue;
      const now = standing(fact, amendments).fact;
      if ('nest' in now && now.nest !== nest) moves.push([nest, now.nest, fact]);
    }
  }
  for (const [from, to, fact] of moves) {
    byNest.set(
      from,
      (byNest.get(from) ?? []).filter((other) => other !== fact),
    );
    push(byNest, to, fact);
  }
}

/** The nests that events speak of, by themselves, through their target, or in a changed value. */
function touchedNests(
  fresh: readonly SeasonEvent[],
  events: ReadonlyMap<string, SeasonEvent>,
): ReadonlySet<string> {
  const touched = new Set<string>();
  const visit = (event: SeasonEvent | undefined, seen: ReadonlySet<string>): void => {
    if (event === undefined || seen.has(event.id)) return;
    if ('nest' in event) touched.add(event.nest);
    if (!('target' in event)) return;
    visit(events.get(event.target), new Set([...seen, event.id]));
    if (event.kind === 'corrected' && typeof event.changes['nest'] === 'string') {
      touched.add(event.changes['nest']);
    }
  };
  for (const event of fresh) visit(event, new Set());
  const targets = new Set(fresh.map((event) => event.id));
  // An amendment may have come before the fact it speaks of: its changed nest is touched too.
  for (const event of events.values()) {
    if ('target' in event && targets.has(event.target)) visit(event, new Set());
  }
  // A fact that was moved by a correction since withdrawn or restored touches both nests.
  for (const event of events.values()) {
    if (event.kind === 'corrected' && typeof event.changes['nest'] === 'string') {
      const target = events.get(event.target);
      const from = target !== undefined && 'nest' in target ? target.nest : null;
      if (from !== null && (touched.has(from) || touched.has(event.changes['nest']))) {
        touched.add(from).add(event.changes['nest']);
      }
    }
  }
  return touched;
}

function foldNests(
  { byNest, amendments }: Sorted,
  zone: string,
  before: SeasonRecord | null,
  touched: ReadonlySet<string> | null,
): Pick<SeasonRecord, 'nests' | 'unplaced' | 'problems'> {
  const nests = new Map<NestId, NestRecord>();
  const unplaced: Standing[] = [];
  const problems: RecordProblem[] = [];
  for (const id of [...byNest.keys()].sort()) {
    const facts = byNest.get(id) ?? [];
    const kept = touched !== null && !touched.has(id) ? before?.nests.get(id) : undefined;
    const folded = kept ?? foldNest(facts, amendments, zone);
    if (folded !== null) nests.set(id, folded);
    else unplaced.push(...facts.map((fact) => standing(fact, amendments)).filter(stands));
    const registrations = facts.filter((fact) => fact.kind === 'nest-registered');
    if (registrations.length > 1) {
      for (const again of registrations) {
        if (again.id === folded?.registration.original.id) continue;
        const message = `Nest ${id} was registered more than once; the first stands. Correct it, or give this one another name.`;
        problems.push({ event: again.id, message });
      }
    }
  }
  return { nests, unplaced: sortById(unplaced), problems };
}

function amendmentProblems(
  { amendments }: Sorted,
  events: ReadonlyMap<string, SeasonEvent>,
): RecordProblem[] {
  const problems: RecordProblem[] = [];
  for (const [target, list] of amendments) {
    if (events.has(target)) continue;
    for (const event of list) {
      const message = `It ${event.kind === 'corrected' ? 'corrects' : 'withdraws'} a note that is not here (yet). It will hold when that note arrives.`;
      problems.push({ event: event.id, message });
    }
  }
  return problems.sort((a, b) => (a.event < b.event ? -1 : 1));
}

const stands = (entry: Standing): boolean => !entry.withdrawn;

const sortById = <E extends Standing>(entries: E[]): E[] =>
  entries.sort((a, b) => (a.fact.id < b.fact.id ? -1 : 1));

function ofKind<Kind extends Fact['kind']>(
  entries: readonly Standing[],
  kind: Kind,
): Standing<FactOf<Kind>>[] {
  return entries.filter((entry) => entry.fact.kind === kind) as Standing<FactOf<Kind>>[];
}

/** Those of a kind, in the order of the table they came from, then by id. */
function inOrder<Kind extends Fact['kind']>(
  entries: readonly Standing[],
  kind: Kind,
): readonly Standing<FactOf<Kind>>[] {
  return sortById(ofKind(entries, kind));
}

function latest<Kind extends Fact['kind']>(
  entries: readonly Standing[],
  kind: Kind,
): Standing<FactOf<Kind>> | undefined {
  return ofKind(entries, kind)
    .sort((a, b) => byWriting(writtenAt(a.fact), writtenAt(b.fact)))
    .at(-1);
}

/** One entry a person: the one written last. */
function enrolled(
  entries: readonly Standing<FactOf<'volunteer-enrolled'>>[],
): readonly Standing<FactOf<'volunteer-enrolled'>>[] {
  const byName = new Map<string, Standing<FactOf<'volunteer-enrolled'>>>();
  for (const entry of entries) {
    const held = byName.get(entry.fact.volunteer);
    const later =
      held === undefined || byWriting(writtenAt(held.original), writtenAt(entry.original)) < 0;
    if (later) byName.set(entry.fact.volunteer, entry);
  }
  return sortById([...byName.values()]);
}

function layouts(entries: readonly Standing[]): Map<TableName, EventOf<'table-laid-out'>> {
  const byTable = new Map<TableName, EventOf<'table-laid-out'>>();
  const all = ofKind(entries, 'table-laid-out');
  for (const { fact } of all.sort((a, b) => byWriting(writtenAt(a.fact), writtenAt(b.fact)))) {
    byTable.set(fact.table, fact);
  }
  return byTable;
}

function push<Key, Value>(map: Map<Key, Value[]>, key: Key, value: Value): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}

import type { SeasonEvent } from '../domain/event.ts';
import type { NestId } from '../domain/nest.ts';
import { RootFinder } from './amendment-tree.ts';
import { EventsSoFar } from './events-so-far.ts';
import { type General, foldGeneral } from './fold-general.ts';
import { type FoldedNest, foldNest } from './fold-nest.ts';
import { byId } from './order.ts';
import { adriftProblems } from './problems.ts';
import { preferred } from './same-event.ts';
import type { NestRecord, SeasonRecord, Standing } from './season-record.ts';
import { type Sorted, nothingSorted, sortIn } from './sort-in.ts';

/** Read nights and times by this zone until a programme says otherwise. */
const UNTOLD_ZONE = 'UTC';

/** What a fold is carried on from; it belongs to the record that it gave. */
interface Folded {
  readonly events: EventsSoFar;
  readonly sorted: Sorted;
  readonly general: General;
  readonly nests: ReadonlyMap<NestId, FoldedNest>;
}

const nothingFolded: Folded = {
  events: EventsSoFar.none,
  sorted: nothingSorted,
  general: foldGeneral([]),
  nests: new Map(),
};

const foldedOf = new WeakMap<SeasonRecord, Folded>();

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
 * still holds. `before` is not changed. A record that was not made here is folded afresh from its
 * events.
 */
export function foldOn(
  before: SeasonRecord | null,
  added: Iterable<SeasonEvent>,
  fallbackZone = UNTOLD_ZONE,
): SeasonRecord {
  const folded = before === null ? nothingFolded : foldedOf.get(before);
  if (folded === undefined)
    return fold([...(before?.events.values() ?? []), ...added], fallbackZone);
  const { fresh, replacing } = takeIn(folded.events, added);
  if (replacing.size > 0) {
    const kept = [...folded.events.values()].map((event) => replacing.get(event.id) ?? event);
    return fold([...kept, ...fresh], fallbackZone);
  }
  const isSame = fresh.length === 0 && before?.zone === zoneOf(folded.general, fallbackZone);
  return isSame ? before : step(before, folded, fresh, fallbackZone);
}

interface Intake {
  readonly fresh: readonly SeasonEvent[];
  /** Events that came again under the same id, saying something else, and are preferred. */
  readonly replacing: ReadonlyMap<string, SeasonEvent>;
}

function takeIn(before: ReadonlyMap<string, SeasonEvent>, added: Iterable<SeasonEvent>): Intake {
  const fresh = new Map<string, SeasonEvent>();
  const replacing = new Map<string, SeasonEvent>();
  for (const event of added) {
    const { id } = event;
    const held = fresh.get(id) ?? replacing.get(id) ?? before.get(id);
    const stays = held === undefined ? event : preferred(held, event);
    if (stays !== held) (before.has(id) ? replacing : fresh).set(id, stays);
  }
  return { fresh: [...fresh.values()], replacing };
}

function step(
  before: SeasonRecord | null,
  folded: Folded,
  fresh: readonly SeasonEvent[],
  fallbackZone: string,
): SeasonRecord {
  const events = folded.events.with(fresh);
  const { sorted, touched } = sortIn(folded.sorted, fresh, events);
  const isGeneralSame = sorted.general === folded.sorted.general;
  const general = isGeneralSame ? folded.general : foldGeneral(sorted.general.values());
  const zone = zoneOf(general, fallbackZone);
  const toFold = before?.zone === zone ? touched : new Set(sorted.byNest.keys());
  const nests = new Map(folded.nests);
  for (const id of new Set([...touched, ...toFold])) {
    const facts = sorted.byNest.get(id);
    if (facts === undefined) nests.delete(id);
    else nests.set(id, foldNest(id, facts, sorted.amendments, zone));
  }
  const next = { events, sorted, general, nests: inOrderOfNames(nests, folded.nests) };
  const record = recordOf(next, zone);
  foldedOf.set(record, next);
  return record;
}

function recordOf({ events, sorted, general, nests }: Folded, zone: string): SeasonRecord {
  const records = new Map<NestId, NestRecord>();
  const unplaced: Standing[] = [];
  const { problems: generalProblems, ...rest } = general;
  const problems = [...generalProblems, ...adriftProblems(sorted.adrift, new RootFinder(events))];
  for (const [id, nest] of nests) {
    if (nest.record !== null) records.set(id, nest.record);
    unplaced.push(...nest.unplaced);
    problems.push(...nest.problems);
  }
  return {
    ...rest,
    zone,
    nests: records,
    unplaced: unplaced.sort((a, b) => byId(a.fact, b.fact)),
    events,
    problems: problems.sort((a, b) => (a.event < b.event ? -1 : 1)),
  };
}

/** The nests sorted by name; `before` is sorted, so that one with the same names need not be again. */
function inOrderOfNames(
  nests: ReadonlyMap<NestId, FoldedNest>,
  before: ReadonlyMap<NestId, FoldedNest>,
): ReadonlyMap<NestId, FoldedNest> {
  const isSorted = nests.size === before.size && [...nests.keys()].every((id) => before.has(id));
  return isSorted ? nests : new Map([...nests].sort(([a], [b]) => (a < b ? -1 : 1)));
}

function zoneOf({ programme }: General, fallbackZone: string): string {
  return programme.time_zone ?? fallbackZone;
}

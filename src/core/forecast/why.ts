import { type Night, addNights } from '../domain/night.ts';
import { dayMonthText } from '../domain/night-text.ts';
import type { NestId } from '../domain/nest.ts';
import { type Visit, soundSaid } from '../domain/visit.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import type { Moment, Reason } from './forecast.ts';
import { type NestOdds, oddsFrom } from './nest-odds.ts';
import { oneNest } from './one-nest.ts';
import { ForecastMemory } from './season-memory.ts';
import type { Sighting } from './sightings.ts';
import { chanceOn } from './tonight.ts';
import { instrumentWord, mishapWord, soundWord, surfaceWord } from '../domain/code-words.ts';
import { listWords } from '../domain/locale.ts';

/**
 * Why a nest has the odds it has tonight: for each note, and for its age and what other nests say
 * of the season, the factor by which that multiplied the odds of a boil tonight, leaving the rest in
 * place. Strongest first. Empty when the nest is not on record or tonight is ruled out.
 */
export function whyTonight(
  record: SeasonRecord,
  moment: Moment,
  nest: NestId,
  memory: ForecastMemory = new ForecastMemory(),
): readonly Reason[] {
  const one = oneNest(record, moment, nest, memory);
  if (one === null) return [];
  const { work, evidence, prior, priorAlone, oddsWithout } = one;
  const { candidates, surface, sound, sightings, mishaps } = evidence;
  const tonight = moment.night;
  const whole = odds(oddsFrom(candidates, prior, work.never, work.log), tonight);
  if (whole <= 0) return [];
  const factor = (without: NestOdds): number => whole / odds(without, tonight);
  const withPrior = (other: Float64Array): number =>
    factor(oddsFrom(candidates, other, work.never, work.log));
  const reasons: Reason[] = [];
  const add = (kind: Reason['kind'], visit: Visit | undefined, text: string, by: number): void => {
    if (Number.isFinite(by)) reasons.push({ kind, visit: visit?.id ?? null, text, factor: by });
  };
  if (candidates.layNights !== null) {
    const flat = new Float64Array(candidates.count).fill(1 / candidates.count);
    add('age', undefined, ageText(record, nest, tonight), withPrior(flat));
    add('season', undefined, 'what the other nests say of this season', withPrior(priorAlone));
  }
  surface.forEach(({ visit }, index) => {
    const without = oddsWithout({ channel: 'surface', index });
    add(
      'surface',
      visit,
      noteText(visit.surface === null ? '' : surfaceWord[visit.surface], visit, tonight),
      factor(without),
    );
  });
  sound.forEach(({ visit }, index) => {
    const by = visit.instrument === null ? [] : [`by ${instrumentWord[visit.instrument]}`];
    const without = oddsWithout({ channel: 'sound', index });
    const said = soundText(visit);
    add('sound', visit, noteText([said, ...by].join(' '), visit, tonight), factor(without));
  });
  sightings.forEach((sighting, index) => {
    const without = oddsWithout({ channel: 'sighting', index });
    const text = `${sightingText(sighting)}, ${whenText(sighting.night, tonight)}`;
    add(sighting.kind, sighting.visits[0], text, factor(without));
  });
  if (evidence.silence !== null) {
    const text = 'no boil reported so far, where finds are written down';
    add('tracks', undefined, text, factor(oddsWithout({ channel: 'silence' })));
  }
  if (mishaps.visits.length > 0) {
    const kinds = listWords(mishapsOf(mishaps.visits));
    add('mishap', mishaps.visits[0], `${kinds} noted`, factor(oddsWithout({ channel: 'mishaps' })));
  }
  return reasons.sort((a, b) => Math.abs(Math.log(b.factor)) - Math.abs(Math.log(a.factor)));
}

function odds(of: NestOdds, night: Night): number {
  const p = chanceOn(of, night);
  return p / (1 - p);
}

function ageText(record: SeasonRecord, id: NestId, tonight: Night): string {
  const nest = record.nests.get(id)?.nest;
  if (nest?.layNight === undefined || nest.layNight === null) return 'its age';
  const oldest = tonight - nest.layNight;
  const youngest = tonight - (nest.layNightLatest ?? nest.layNight);
  return youngest === oldest
    ? `${oldest} nights since it was laid`
    : `${youngest} to ${oldest} nights since it was laid`;
}

function soundText(visit: Visit): string {
  if (visit.sound !== null) return soundWord[visit.sound];
  const heard = soundSaid(visit);
  return `meter: ${heard === null ? 'can not tell' : soundWord[heard]}`;
}

function mishapsOf(visits: readonly Visit[]): readonly string[] {
  const kinds = new Set(visits.flatMap(({ mishap }) => (mishap === null ? [] : [mishap])));
  return [...kinds].map((kind) => mishapWord[kind]);
}

function noteText(what: string, visit: Visit, tonight: Night): string {
  const who = visit.observer === null ? '' : ` (${visit.observer})`;
  const when =
    visit.half === 'dawn'
      ? `at dawn on ${dayMonthText(addNights(visit.night, 1))}`
      : whenText(visit.night, tonight);
  return `${what}, ${when}${who}`;
}

/** The night of a note in words: tonight, last night, or its date such as `1 Sep`. */
function whenText(night: Night, tonight: Night): string {
  if (night === tonight) return /* @wc-include */ 'tonight';
  if (night === addNights(tonight, -1)) return 'last night';
  return dayMonthText(night);
}

function sightingText({ kind, counted }: Sighting): string {
  if (kind === 'tracks') {
    return counted === 0 ? 'no tracks at dawn' : `${counted} hatchling tracks at dawn`;
  }
  return counted === 0 ? 'watched, nothing came' : `watched, ${counted} came`;
}

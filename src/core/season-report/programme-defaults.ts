import {
  degreeDaysText,
  temperatureDifferenceText,
  temperatureText,
} from '../domain/measure-text.ts';
import type { Measures } from '../domain/measures.ts';
import { Species, commonName } from '../domain/species.ts';
import { moonOdds, strayByExposure } from '../forecast/at-stake.ts';
import { defaultCueTables } from '../forecast/cue-tables.ts';
import { sharedSd } from '../forecast/effect-layout.ts';
import { expectedSuccess, untoldClutch_eggs } from '../forecast/hatchlings.ts';
import { byHour, daylight } from '../forecast/hour-of-emergence.ts';
import { incubation, neverShare } from '../forecast/incubation.ts';
import { predated, storm } from '../forecast/mishaps.ts';
import { misreadShare, noviceHears } from '../forecast/misreading.ts';
import { straggling } from '../forecast/sightings.ts';
import { siteOf } from '../forecast/site.ts';
import { defaultTuning } from '../forecast/tuning.ts';
import { inventoryRules } from '../inventory/inventory-rules.ts';
import { fold } from '../log/fold.ts';
import { developmentLine } from '../thermal/development.ts';
import { metabolicHeat_c } from '../thermal/metabolic-heat.ts';
import { spread_nights55 } from '../thermal/spread.ts';
import type { SettingKey } from './programme-settings.ts';
import { fixedText, numberText } from '../domain/locale.ts';

/** How well a default is founded. */
export type Label = 'measured' | 'derived' | 'guess';

/** One value that the odds start from, with where it comes from. */
export interface ProgrammeDefault {
  readonly name: string;
  /** The value with its unit, in words. */
  readonly value: string;
  readonly label: Label;
  readonly source: string;
  /** Set when a programme can have its own value for it. */
  readonly setting?: SettingKey;
}

export interface DefaultGroup {
  readonly title: string;
  readonly defaults: readonly ProgrammeDefault[];
}

/**
 * Everything that is assumed until a programme says otherwise or its record teaches better, told in
 * the measures chosen.
 */
export function programmeDefaults(measures: Measures): readonly DefaultGroup[] {
  return [
    { title: 'Your beach', defaults: beach() },
    { title: 'Hatchlings at stake', defaults: stake() },
    { title: 'Inventories', defaults: inventories() },
    { title: 'Nights from laying to the boil', defaults: durations() },
    { title: 'Temperature', defaults: temperature(measures) },
    { title: 'Nests that never come up', defaults: never() },
    { title: 'What nests share', defaults: shared() },
    { title: 'Sand and sound', defaults: cues() },
    { title: 'Watches and tracks', defaults: watches() },
  ];
}

const practice = 'common practice, no source';
const expert = 'expert guess; learned from your record';
const untaught = 'expert guess';

function guess(
  name: string,
  value: string,
  source: string,
  setting?: SettingKey,
): ProgrammeDefault {
  const row = { name, value, label: 'guess', source } as const;
  return setting === undefined ? row : { ...row, setting };
}

function derived(name: string, value: string, source: string): ProgrammeDefault {
  return { name, value, label: 'derived', source };
}

function beach(): readonly ProgrammeDefault[] {
  const { boilTracks, pairs } = siteOf(fold([]));
  return [
    guess(
      'Tracks or hatchlings from which it was the boil',
      numberText(boilTracks),
      untaught,
      'boil_tracks',
    ),
    guess('Pairs of sitters out on an evening', numberText(pairs), practice, 'pairs'),
  ];
}

function stake(): readonly ProgrammeDefault[] {
  const exposures = [
    /* @wc-include */ 'dark',
    'a little light',
    'lamps near',
    'lamps in direct view',
  ];
  return [
    ...strayByExposure.map((share, exposure) =>
      guess(
        `Go astray unattended, exposure ${exposure} (${exposures[exposure] ?? ''})`,
        percent(share),
        untaught,
        `stray_by_exposure.${exposure as 0 | 1 | 2 | 3}`,
      ),
    ),
    guess(
      'Odds of going astray at new moon; under a full moon',
      [moonOdds.dark, moonOdds.full].map(times).join('; '),
      'direction measured (Salmon & Witherington 1995, Copeia 1995:931-938); the size a guess',
    ),
    guess(
      'Share of a clutch that comes out of a nest that boils',
      percent(expectedSuccess),
      untaught,
      'expected_success',
    ),
    guess(
      'Eggs of a clutch that was not counted',
      numberText(untoldClutch_eggs),
      'guess near published means',
    ),
  ];
}

function inventories(): readonly ProgrammeDefault[] {
  const { afterEmergence, withoutEmergence } = inventoryRules({}, null);
  const leatherback = inventoryRules({}, 'Dermochelys coriacea').withoutEmergence;
  const permit = 'common practice, from memory; the number on your permit decides';
  return [
    guess(
      'Days from the boil to the inventory',
      numberText(afterEmergence.days),
      permit,
      'inventory_days.after_emergence',
    ),
    guess(
      'Days from laying to the inventory without a boil',
      `${withoutEmergence.days} (leatherback ${leatherback.days})`,
      permit,
      'inventory_days.without_emergence',
    ),
  ];
}

function durations(): readonly ProgrammeDefault[] {
  const field =
    'published field nests (Krueger & Janzen 2022 data set, pooled over 12 beaches, 266 df), rounded';
  return speciesAndNone().map((species) => {
    const { median, spread } = incubation(species);
    return derived(
      commonName(species),
      `${numberText(median)} nights, spread ${numberText(spread)}`,
      field,
    );
  });
}

function temperature(measures: Measures): readonly ProgrammeDefault[] {
  const fitted =
    'least squares on published incubations at constant temperature (Krueger & Janzen 2022, ROSIE)';
  const lines = speciesAndNone().map((species): ProgrammeDefault => {
    const { zero_c, degreeDays, toBoil_nights } = developmentLine(species);
    const zero = temperatureText(zero_c, measures);
    const value = `from ${zero}, ${degreeDaysText(degreeDays, measures)} degree days, + ${numberText(toBoil_nights)} nights`;
    const isGuess = species === 'Lepidochelys kempii' || species === null;
    const name = `Development, ${commonName(species)}`;
    return isGuess
      ? guess(name, value, 'no such incubations on file; fits field nests')
      : derived(name, value, fitted);
  });
  const only = { beside: 0, beach: 0, air: 0, none: 0 };
  const loggerhead = 'Caretta caretta';
  return [
    ...lines,
    {
      name: 'A clutch warms itself in its middle third',
      value: `+ ${temperatureDifferenceText(metabolicHeat_c(0.5), measures)}`,
      label: 'measured',
      source: `+${temperatureDifferenceText(0.37, measures)} in 18 green nests at Samandag`,
    },
    {
      name: 'and at the end at most',
      value: `+ ${temperatureDifferenceText(metabolicHeat_c(1), measures)}`,
      label: 'measured',
      source:
        'review of 16 studies, all seven species (Front Ecol Evol 2020, doi 10.3389/fevo.2020.556379); the straight rise to it is a guess',
    },
    derived(
      'Spread with a logger on the beach, nights at 55',
      numberText(spread_nights55(loggerhead, { ...only, beach: 1 })),
      'field studies (2.2 in a 133-nest Florida study, 2.6 pooled over 110 df)',
    ),
    guess(
      'Spread by air and rain alone, nights at 55',
      numberText(spread_nights55(loggerhead, { ...only, air: 1 })),
      untaught,
    ),
  ];
}

function never(): readonly ProgrammeDefault[] {
  const learned = 'learned from finished seasons';
  return [
    derived('Loggerhead', percent(neverShare('Caretta caretta')), `published; ${learned}`),
    guess('Leatherback', percent(neverShare('Dermochelys coriacea')), `${untaught}; ${learned}`),
    guess('All others', percent(neverShare(null)), `${untaught}; ${learned}`),
    guess(
      'Odds after a washover; after several; after burial',
      [storm.once, storm.again, storm.buried].map(times).join('; '),
      'guess anchored on measured egg losses',
    ),
    guess('Odds after predation', times(predated), 'guess anchored on measured egg losses'),
  ];
}

function shared(): readonly ProgrammeDefault[] {
  const spread = (name: string, sd: number): ProgrammeDefault =>
    guess(name, `± ${fixedText(100 * sd, 1)} %`, 'expert guess; learned from finished seasons');
  return [
    spread('How far a beach lies from the usual', sharedSd.beach),
    spread('How far one season lies from the beach’s others', sharedSd.season),
    spread('From one lay week to the next, this season', sharedSd.week),
    spread('From one lay week to the next, every year', sharedSd.curve),
    spread('One zone against another', sharedSd.zone),
  ];
}

function cues(): readonly ProgrammeDefault[] {
  const { surface, sound } = defaultCueTables;
  const last = (rows: typeof surface.rows): readonly number[] => rows.at(-1)?.[1] ?? [];
  const onTheNight = (rows: typeof surface.rows): readonly number[] => rows[0]?.[1] ?? [];
  const depressed = (row: readonly number[]): number => (row[2] ?? 0) + (row[3] ?? 0);
  return [
    guess(
      'Depression or caved: on the night of the boil; far from it',
      `${percent(depressed(onTheNight(surface.rows)))}; ${percent(depressed(last(surface.rows)))}`,
      `${expert} (Season, learned tables)`,
    ),
    guess(
      'Steady or waterfall beside the nest: on that night; far from it',
      `${percent(depressed(onTheNight(sound.rows)))}; ${percent(depressed(last(sound.rows)))}`,
      `${expert} (Season, learned tables)`,
    ),
    guess(
      'Misread by one step: lead; trained; novice',
      `${percent(misreadShare.lead)}; ${percent(misreadShare.trained)}; ${percent(misreadShare.novice)}`,
      expert,
    ),
    guess('Novices hear something in silence', percent(noviceHears), expert),
    guess(
      'Weight of surface notes; of sound notes (power)',
      `${numberText(defaultTuning.surfacePower)}; ${numberText(defaultTuning.soundPower)}`,
      expert,
    ),
  ];
}

function watches(): readonly ProgrammeDefault[] {
  return [
    guess(
      'Boils by hour after sunset, first to eighth',
      byHour.map((share) => percent(share)).join(', '),
      'guess between measured peaks; beaches differ',
    ),
    guess('Boils before sunset', percent(daylight), 'guess between measured peaks'),
    guess('Stragglers on a night far from the boil', percent(straggling), untaught),
  ];
}

function speciesAndNone(): readonly (Species | null)[] {
  return [...Species.options, null];
}

function times(factor: number): string {
  return `× ${numberText(factor)}`;
}

function percent(share: number): string {
  return `${numberText(Number((share * 100).toFixed(1)))} %`;
}

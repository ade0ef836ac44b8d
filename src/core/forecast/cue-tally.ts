import { type Instrument, Sound, Surface } from '../domain/visit.ts';
import { type ChainCounts, chainCounts } from '../inference/chain-counts.ts';
import type { ChainModel } from '../inference/hidden-chain.ts';
import { type LookGroups, groupLooks } from '../inference/look-groups.ts';
import { type CueChains, windyPower } from './cue-chains.ts';
import type { CueTables } from './cue-tables.ts';
import {
  type CueLook,
  type Evidence,
  eventHalves,
  experienceOf,
  soundLikelihood,
  surfaceLikelihood,
} from './evidence.ts';
import { type Readings, readingTable } from './misreading.ts';
import { type ReadingTally, readingTally, tallyReading } from './reading-tally.ts';
import { type RowTally, rowTally, tallyState } from './row-tally.ts';

const STATES = 4;

/** What one cue is expected to have done on all nests together. */
export interface CueTally {
  readonly rows: RowTally;
  /** Expected redraws and half nights they were taken from: near the boil, far from it, after it. */
  readonly redraws: { near: number; far: number; after: number };
  readonly moves: { near: number; far: number; after: number };
  readonly afterStart: Float64Array;
  readonly readings: ReadingTally;
}

export interface SeasonTally {
  readonly surface: CueTally;
  readonly sound: CueTally;
  readonly stethoscope: RowTally;
}

/** Chances below this are left out of the counts: thousands of them make no note. */
const negligible = 1e-7;

/** Half nights left up to which moves speak of the near redraw: three nights. */
const nearMoves = 6;

/** Empty tallies for the rows of these tables. */
export function seasonTally(tables: CueTables): SeasonTally {
  const cue = (rows: RowTally): CueTally => ({
    rows,
    redraws: { near: 0, far: 0, after: 0 },
    moves: { near: 0, far: 0, after: 0 },
    afterStart: new Float64Array(STATES),
    readings: readingTally(),
  });
  return {
    surface: cue(rowTally(tables.surface.rows)),
    sound: cue(rowTally(tables.sound.rows)),
    stethoscope: rowTally(tables.stethoscope),
  };
}

/**
 * Adds what was noted of one nest, by the chance of each candidate night and of never (`weights`,
 * last element). `chains` are those of `tables`.
 */
export function tallyNest(
  tally: SeasonTally,
  evidence: Evidence,
  weights: Float64Array,
  tables: CueTables,
  chains: CueChains,
): void {
  const events = eventHalves(evidence.candidates);
  const { surface, sound } = groupsOf(evidence, chains);
  if (surface.at.length > 0) {
    const counts = chainCounts(chains.surface, surface, events, weights);
    tallyMoves(tally.surface, chains.surface, counts);
    tallySurface(tally.surface, evidence.surface, surface, counts, chains.surface);
  }
  if (sound.at.length > 0) {
    const counts = chainCounts(chains.sound, sound, events, weights);
    tallyMoves(tally.sound, chains.sound, counts);
    tallySound(tally, evidence.sound, sound, counts, tables.soundReadings, chains);
  }
}

/** The looks of a nest as these chains read them, by half nights. */
export function groupsOf(
  { surface, sound }: Evidence,
  chains: CueChains,
): { surface: LookGroups; sound: LookGroups } {
  return {
    surface: groupLooks(
      surface.map(({ visit, at }) => ({ at, likelihood: surfaceLikelihood(visit, chains) })),
    ),
    sound: groupLooks(
      sound.map(({ visit, at }) => ({ at, likelihood: soundLikelihood(visit, chains) })),
    ),
  };
}

function tallyMoves(tally: CueTally, { reach }: ChainModel, counts: ChainCounts): void {
  const { redraws, moves, afterStart } = tally;
  for (let left = 0; left <= nearMoves; left++) {
    redraws.near += counts.redraws[left]!;
    moves.near += counts.moves[left]!;
  }
  redraws.far += counts.redraws[reach]!;
  moves.far += counts.moves[reach]!;
  redraws.after += counts.redraws[reach + 1]!;
  moves.after += counts.moves[reach + 1]!;
  for (let s = 0; s < STATES; s++) afterStart[s] = afterStart[s]! + counts.afterStart[s]!;
}

/**
 * Share of a look that tells more of its row than the look before did: where the state was redrawn
 * since. A row near the boil is met once by each nest, so that a look on another night is all new.
 */
function freshShare(model: ChainModel, { at }: LookGroups, group: number, row: number): number {
  if (group === 0) return 1;
  const gap = at[group]! - at[group - 1]!;
  if (row >= model.reach) return 1 - (1 - model.farRedraw) ** gap;
  return gap > 1 ? 1 : model.redraw[row]!;
}

function tallySurface(
  { rows, readings }: CueTally,
  looks: readonly CueLook[],
  groups: LookGroups,
  { atLooks }: ChainCounts,
  model: ChainModel,
): void {
  const width = (model.reach + 2) * STATES;
  for (let group = 0; group < groups.at.length; group++) {
    for (let row = 0; row <= model.reach; row++) {
      const fresh = freshShare(model, groups, group, row);
      for (let s = 0; s < STATES; s++) {
        const chance = atLooks[group * width + row * STATES + s]!;
        if (chance > negligible) tallyState(rows, row, s, chance, fresh);
      }
    }
  }
  looks.forEach(({ visit }, index) => {
    if (visit.surface === null) return;
    const experience = experienceOf(visit);
    const reading = Surface.options.indexOf(visit.surface);
    const from = groups.groupOf[index]! * width;
    for (let truth = 0; truth < STATES; truth++) {
      let chance = 0;
      for (let cell = truth; cell < width; cell += STATES) chance += atLooks[from + cell]!;
      tallyReading(readings, experience, visit.observer, truth, reading, chance);
    }
  });
}

/** As for the surface; besides, what reached the ear is to be told from what was there. */
function tallySound(
  { sound: { rows, readings }, stethoscope }: SeasonTally,
  looks: readonly CueLook[],
  groups: LookGroups,
  { atLooks }: ChainCounts,
  soundReadings: Readings,
  { sound: model, muffled }: CueChains,
): void {
  const width = (model.reach + 2) * STATES;
  const inGroup = new Int32Array(groups.at.length);
  const heardAs = new Float64Array(STATES);
  for (const group of groups.groupOf) inGroup[group] = inGroup[group]! + 1;
  looks.forEach(({ visit }, index) => {
    if (visit.sound === null) return;
    const experience = experienceOf(visit);
    const reading = Sound.options.indexOf(visit.sound);
    const read = readingTable(soundReadings, experience, visit.observer);
    const group = groups.groupOf[index]!;
    const power = visit.wind === 'strong' ? windyPower : 1;
    const beside = besideShare(visit.instrument);
    const perNote = 1 / inGroup[group]!;
    heardAs.fill(0);
    for (let row = 0; row <= model.reach + 1; row++) {
      const fresh = freshShare(model, groups, group, row) * power;
      for (let s = 0; s < STATES; s++) {
        const chance = atLooks[group * width + row * STATES + s]!;
        if (chance <= negligible) continue;
        const cell = (row * STATES + s) * STATES;
        const plain = beside * read[s * STATES + reading]!;
        let total = plain;
        for (let heard = 0; heard < STATES; heard++) {
          total += (1 - beside) * muffled[cell + heard]! * read[heard * STATES + reading]!;
        }
        if (total <= 0) continue;
        if (plain > 0) {
          const part = (chance * plain) / total;
          heardAs[s] = heardAs[s]! + part;
          if (row <= model.reach) tallyState(rows, row, s, part * perNote, fresh);
        }
        if (beside === 1) continue;
        for (let heard = 0; heard < STATES; heard++) {
          const likelihood =
            (1 - beside) * muffled[cell + heard]! * read[heard * STATES + reading]!;
          if (likelihood <= 0) continue;
          const part = (chance * likelihood) / total;
          heardAs[heard] = heardAs[heard]! + part;
          if (row <= model.reach) tallyState(stethoscope, row, heard, part * perNote, fresh);
        }
      }
    }
    for (let heard = 0; heard < STATES; heard++) {
      tallyReading(readings, experience, visit.observer, heard, reading, heardAs[heard]! * power);
    }
  });
}

/** Chance that a note was made with an instrument beside the nest; half where none is said. */
function besideShare(instrument: Instrument | null): number {
  if (instrument === null) return 0.5;
  return instrument === 'stethoscope' ? 0 : 1;
}

import { type Experience, Instrument, Sound, Surface } from '../domain/visit.ts';
import { type ChainModel, chainModel } from '../inference/hidden-chain.ts';
import { type StateRows, fillRows, monotoneCoupling } from '../inference/state-rows.ts';
import { type CueTable, type CueTables, defaultCueTables } from './cue-tables.ts';
import { readingTable } from './misreading.ts';
import { type Tuning, defaultTuning } from './tuning.ts';

/** Half nights a night; the chains move by half nights. */
export const halvesPerNight = 2;
const STATES = 4;

/** Share redrawn in half a night when `perNight` is redrawn in a whole one. */
const perHalf = (perNight: number): number => 1 - Math.sqrt(1 - perNight);

/** Nights left up to which the near share is redrawn, and from which the far one. */
export const redrawNear_nights = 3;
export const redrawFar_nights = 10;

/** Share redrawn a night, so many nights before the boil. */
function redrawAt({ near, far }: CueTable['redraw'], nightsLeft: number): number {
  if (nightsLeft <= redrawNear_nights) return near;
  if (nightsLeft >= redrawFar_nights) return far;
  const way = (nightsLeft - redrawNear_nights) / (redrawFar_nights - redrawNear_nights);
  return near * (far / near) ** way;
}

export interface CueChains {
  readonly surface: ChainModel;
  readonly sound: ChainModel;
  /** Power to which each channel's likelihood is raised. */
  readonly power: { readonly surface: number; readonly sound: number };
  /** Likelihood rows of a reading, see `Look`; by reading, experience and who read. */
  readonly surfaceLook: (
    reading: Surface,
    experience: Experience,
    observer?: string | null,
  ) => Float64Array;
  /** The same for sound, by instrument (null = not said) and whether strong wind halved its weight. */
  readonly soundLook: (
    reading: Sound,
    experience: Experience,
    instrument: Instrument | null,
    windy: boolean,
    observer?: string | null,
  ) => Float64Array;
  /** The rows of a meter's likelihood over what it heard, by state, through the same instruments. */
  readonly meterLook: (
    likelihood: readonly number[],
    instrument: Instrument | null,
  ) => Float64Array;
  /**
   * Chance of each thing a stethoscope hears given what is there, on every row of a `Look`;
   * row-major: row, what is there, what is heard.
   */
  readonly muffled: Float64Array;
}

/** Weight of a sound note made in strong wind, as a power of its likelihood. */
export const windyPower = 0.5;

/**
 * The chains of surface and sound, and the likelihood of each reading; by the default tables unless
 * others were learned. What is there to be heard is what a probe or microphone beside the nest would
 * hear; a stethoscope on the surface hears it muffled, by the monotone coupling of its table to the
 * other's, so that each instrument keeps its own table and notes made with both share one truth. An
 * instrument that was not said is the mean of the two.
 */
export function cueChains(
  tables: CueTables = defaultCueTables,
  { surfacePower, soundPower }: Tuning = defaultTuning,
): CueChains {
  const soundTable = fillRows(tables.sound.rows);
  const surface = chainOf(tables.surface, fillRows(tables.surface.rows));
  const sound = chainOf(tables.sound, soundTable);
  const plain = identityRows(surface.reach);
  const muffled = mufflingRows(soundTable, fillRows(tables.stethoscope));
  const mean = muffled.map((value, index) => (value + plain[index]!) / 2);
  const heardBy = (instrument: Instrument | null): Float64Array =>
    instrument === null ? mean : instrument === 'stethoscope' ? muffled : plain;

  const surfaceRows = new MadeOnce();
  const soundRows = new MadeOnce();
  return {
    surface,
    sound,
    power: { surface: surfacePower, sound: soundPower },
    surfaceLook(reading, experience, observer = null) {
      const read = readingTable(tables.surfaceReadings, experience, observer);
      const at = Surface.options.indexOf(reading);
      return surfaceRows.get(read, at, () => readingRows(plain, read, at, 1));
    },
    soundLook(reading, experience, instrument, windy, observer = null) {
      const read = readingTable(tables.soundReadings, experience, observer);
      const at = Sound.options.indexOf(reading);
      const key = (instrumentAt(instrument) * 2 + (windy ? 1 : 0)) * STATES + at;
      return soundRows.get(read, key, () =>
        readingRows(heardBy(instrument), read, at, windy ? windyPower : 1),
      );
    },
    meterLook(likelihood, instrument) {
      const heard = heardBy(instrument);
      return Float64Array.from({ length: heard.length / STATES }, (_, index) => {
        let sum = 0;
        for (let state = 0; state < STATES; state++) {
          sum += heard[index * STATES + state]! * (likelihood[state] ?? 0);
        }
        return sum;
      });
    },
    muffled,
  };
}

function chainOf({ redraw, after }: CueTable, rows: StateRows): ChainModel {
  return chainModel(rows, (left) => perHalf(redrawAt(redraw, left / halvesPerNight)), {
    start: after.start,
    redraw: perHalf(after.redraw),
  });
}

/** Place of an instrument among all, the one that was not said at the end. */
function instrumentAt(instrument: Instrument | null): number {
  return instrument === null ? Instrument.options.length : Instrument.options.indexOf(instrument);
}

/** What is heard of each true state: that state itself, on every row. */
function identityRows(reach: number): Float64Array {
  const rows = new Float64Array((reach + 2) * STATES * STATES);
  for (let row = 0; row <= reach + 1; row++) {
    for (let state = 0; state < STATES; state++) {
      rows[(row * STATES + state) * STATES + state] = 1;
    }
  }
  return rows;
}

/** What a weaker instrument hears of each true state, on every row; after the boil as far off. */
function mufflingRows(truth: StateRows, heard: StateRows): Float64Array {
  const rows = new Float64Array((truth.reach + 2) * STATES * STATES);
  for (let row = 0; row <= truth.reach + 1; row++) {
    const left = Math.min(row, truth.reach) * STATES;
    const moves = monotoneCoupling(
      truth.rows.subarray(left, left + STATES),
      heard.rows.subarray(left, left + STATES),
    );
    rows.set(moves, row * STATES * STATES);
  }
  return rows;
}

/** Likelihood of one reading under each true state on each row, raised to a power. */
function readingRows(
  heard: Float64Array,
  read: Float64Array,
  reading: number,
  power: number,
): Float64Array {
  const rows = heard.length / (STATES * STATES);
  const likelihood = new Float64Array(rows * STATES);
  for (let index = 0; index < likelihood.length; index++) {
    let sum = 0;
    for (let state = 0; state < STATES; state++) {
      sum += heard[index * STATES + state]! * read[state * STATES + reading]!;
    }
    likelihood[index] = sum ** power;
  }
  return likelihood;
}

/** Rows already made, by the table a reading was read by and a number for the rest. */
class MadeOnce {
  readonly #known = new Map<Float64Array, (Float64Array | undefined)[]>();

  get(read: Float64Array, key: number, make: () => Float64Array): Float64Array {
    let ofTable = this.#known.get(read);
    if (ofTable === undefined) this.#known.set(read, (ofTable = []));
    return (ofTable[key] ??= make());
  }
}

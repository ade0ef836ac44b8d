import { Experience, Instrument, Sound, Surface } from '../domain/visit.ts';
import { type ChainModel, chainModel } from '../inference/hidden-chain.ts';
import { type StateRows, fillRows, monotoneCoupling } from '../inference/state-rows.ts';
import { besideRows, stethoscopeRows, surfaceRows } from './cue-tables.ts';
import { mishearing, misreadShare, misreading } from './misreading.ts';

/** Half nights a night; the chains move by half nights. */
export const halvesPerNight = 2;
const STATES = 4;

/** Share redrawn in half a night when `perNight` is redrawn in a whole one. */
const perHalf = (perNight: number): number => 1 - Math.sqrt(1 - perNight);

/**
 * Share of surfaces redrawn a night: 0.4 far from hatching, 0.13 within three nights (a true dip
 * stays about a week), and a steady ratio in between (guess).
 */
function surfaceRedraw(nightsLeft: number): number {
  if (nightsLeft <= 3) return 0.13;
  if (nightsLeft >= 10) return 0.4;
  return 0.13 * (0.4 / 0.13) ** ((nightsLeft - 3) / 7);
}

/** Share of sounds redrawn a night: a short memory (guess). */
const soundRedraw = 0.6;

/** After the boil (guesses): what the sand looks like and sounds like, and how fast it goes back. */
const afterBoil = {
  surface: [0.1, 0.2, 0.35, 0.35],
  sound: [0.97, 0.025, 0.004, 0.001],
  redraw: 0.2,
};

export interface CueChains {
  readonly surface: ChainModel;
  readonly sound: ChainModel;
  /** Likelihood rows of a reading, see `Look`; by reading, experience. */
  readonly surfaceLook: (reading: Surface, experience: Experience) => Float64Array;
  /** The same for sound, by instrument (null = not said) and whether strong wind halved its weight. */
  readonly soundLook: (
    reading: Sound,
    experience: Experience,
    instrument: Instrument | null,
    windy: boolean,
  ) => Float64Array;
}

/**
 * The chains of surface and sound with their default tables, and the likelihood of each reading.
 * What is there to be heard is what a probe or microphone beside the nest would hear; a stethoscope
 * on the surface hears it muffled, by the monotone coupling of its table to the other's, so that
 * each instrument keeps its own table and notes made with both share one truth.
 */
export function cueChains(): CueChains {
  const surfaceTable = fillRows(surfaceRows);
  const soundTable = fillRows(besideRows);
  const surface = chainModel(
    surfaceTable,
    (left) => perHalf(surfaceRedraw(left / halvesPerNight)),
    {
      start: afterBoil.surface,
      redraw: perHalf(afterBoil.redraw),
    },
  );
  const sound = chainModel(soundTable, () => perHalf(soundRedraw), {
    start: afterBoil.sound,
    redraw: perHalf(afterBoil.redraw),
  });
  const plain = identityRows(surface.reach);
  const muffled = mufflingRows(soundTable, fillRows(stethoscopeRows));
  const mean = muffled.map((value, index) => (value + plain[index]!) / 2);
  const heardBy = (instrument: Instrument | null): Float64Array =>
    instrument === null ? mean : instrument === 'stethoscope' ? muffled : plain;

  const surfaceLook = remembered((reading: Surface, experience: Experience) =>
    readingRows(
      plain,
      misreading(STATES, misreadShare[experience]),
      Surface.options.indexOf(reading),
      1,
    ),
  );
  const soundLook = remembered(
    (
      reading: Sound,
      experience: Experience,
      instrument: Instrument | null,
      windy: boolean,
    ): Float64Array =>
      readingRows(
        heardBy(instrument),
        mishearing(STATES, experience),
        Sound.options.indexOf(reading),
        windy ? 0.5 : 1,
      ),
  );
  return { surface, sound, surfaceLook, soundLook };
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

function remembered<Args extends readonly unknown[]>(
  make: (...args: Args) => Float64Array,
): (...args: Args) => Float64Array {
  const known = new Map<string, Float64Array>();
  return (...args) => {
    const key = args.join('|');
    let rows = known.get(key);
    if (rows === undefined) known.set(key, (rows = make(...args)));
    return rows;
  };
}

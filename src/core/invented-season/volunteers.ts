import type { Experience, Instrument } from '../domain/visit.ts';
import { type Random, randomStream } from '../numerics/random.ts';
import type { Coast } from './coast.ts';

export type ObserverMix = 'mixed' | 'novice' | 'seasoned';

/** One invented person: what the roster knows of them, and how they look and listen. */
export interface Volunteer {
  readonly name: string;
  readonly experience: Experience;
  /** Zones they will go to; empty = any. */
  readonly zones: readonly string[];
  readonly maxShiftsWeek: number;
  readonly team: string;
  /** Weekdays they like, 0..6. */
  readonly weekdays: readonly number[];
  /** Nights away on a journey, first and last, days from 1 May. */
  readonly away: readonly [number, number];
  readonly from: string;
  readonly to: string;
  readonly instrument: Instrument;
  readonly namesInstrument: boolean;
  readonly meter: boolean;
  /** By what factor they see hollows deeper and hear scratches more than they are. */
  readonly seesMore: number;
  readonly hearsMore: number;
  /** Scatter of a reading on the log scale, and scratches a minute heard where there are none. */
  readonly scatter: number;
  readonly imagines: number;
}

const MIXES: Record<ObserverMix, readonly (readonly [Experience, number])[]> = {
  mixed: [
    ['lead', 0.2],
    ['trained', 0.45],
    ['novice', 0.35],
  ],
  novice: [
    ['lead', 0.08],
    ['trained', 0.2],
    ['novice', 0.72],
  ],
  seasoned: [
    ['lead', 0.4],
    ['trained', 0.52],
    ['novice', 0.08],
  ],
};

/** How each class of experience looks and listens (invented). */
const SENSES: Record<Experience, { scatter: number; bias: number; imagines: number }> = {
  lead: { scatter: 0.16, bias: 0.1, imagines: 0.01 },
  trained: { scatter: 0.27, bias: 0.18, imagines: 0.03 },
  novice: { scatter: 0.42, bias: 0.3, imagines: 0.1 },
};

/** The people of the programme: twelve and one more for every ten nests; the first is a lead. */
export function inventVolunteers(
  seed: number,
  coast: Coast,
  mix: ObserverMix,
  nests: number,
): Volunteer[] {
  const count = 12 + Math.round(nests / 10);
  const names = inventNames(randomStream(seed, 'names'), count);
  return names.map((name, index) => {
    const random = randomStream(seed, 'volunteer', index);
    const experience = index === 0 ? 'lead' : random.weighted(MIXES[mix]);
    const { scatter, bias, imagines } = SENSES[experience];
    const maxShiftsWeek = 1 + random.below(4);
    const left = random.below(150);
    return {
      name,
      experience,
      zones: random.chance(0.65) ? [] : [random.choice(coast.zones).zone],
      maxShiftsWeek,
      team: random.choice(['south', 'north']),
      weekdays: Array.from({ length: maxShiftsWeek }, () => random.below(7)),
      away: [left, left + random.below(16)],
      from: random.choice(['20:00', '20:30', '21:00', '']),
      to: random.choice(['23:00', '00:00', '01:00', '02:00', '']),
      instrument: random.weighted<Instrument>([
        ['stethoscope', 0.55],
        ['microphone', 0.3],
        ['probe', 0.15],
      ]),
      namesInstrument: random.chance(0.85),
      meter: random.chance(0.4),
      seesMore: Math.exp(random.normal(0, bias)),
      hearsMore: Math.exp(random.normal(0, bias)),
      scatter,
      imagines: random.gamma(imagines, 1.5),
    };
  });
}

const STARTS = ['Ba', 'Del', 'Fen', 'Ga', 'Hol', 'Jo', 'Kes', 'Lu', 'Mar', 'Ne', 'Or', 'Pel', 'Ru'];
const ENDS = [
  'brik',
  'dova',
  'feth',
  'gar',
  'lune',
  'mish',
  'nole',
  'quin',
  'rask',
  'sable',
  'tove',
];

/** Distinct first names put together from sounds; after 143 they carry a number. */
function inventNames(random: Random, count: number): string[] {
  const names = STARTS.flatMap((start) => ENDS.map((end) => start + end));
  const start = random.below(names.length);
  // 89 shares no factor with 143: the walk meets every name once before any comes again.
  return Array.from({ length: count }, (_, index) => {
    const round = Math.floor(index / names.length);
    const [name = ''] = names.slice((start + index * 89) % names.length);
    return round === 0 ? name : `${name} ${round + 1}`;
  });
}

import { describe, expect, test } from 'vitest';
import { cueChains } from '../../../src/core/forecast/cue-chains.ts';
import {
  type ChainModel,
  type Look,
  chainEvidence,
} from '../../../src/core/inference/hidden-chain.ts';

const chains = cueChains();

/**
 * Likelihood of looks that all lie after the event, with the states on the last half night, by
 * summing over every path of states from the half night after the event on.
 */
function everyPath(model: ChainModel, looks: readonly Look[], event: number, end: number) {
  const { reach, rows, afterStart, afterRedraw } = model;
  const atEnd = [0, 0, 0, 0];
  const walk = (half: number, state: number, weight: number): void => {
    let here = weight;
    for (const { at, likelihood } of looks) {
      if (at === half) here *= likelihood[(reach + 1) * 4 + state]!;
    }
    if (half === end) {
      atEnd[state] = atEnd[state]! + here;
      return;
    }
    for (let to = 0; to < 4; to++) {
      const move = (to === state ? 1 - afterRedraw : 0) + afterRedraw * rows[reach * 4 + to]!;
      walk(half + 1, to, here * move);
    }
  };
  for (let state = 0; state < 4; state++) walk(event + 1, state, afterStart[state]!);
  const total = atEnd.reduce((sum, p) => sum + p, 0);
  return { total, atEnd: atEnd.map((p) => p / total) };
}

const seen = (at: number, reading: Parameters<typeof chains.surfaceLook>[0]): Look => ({
  at,
  likelihood: chains.surfaceLook(reading, 'novice'),
});
const heard = (
  at: number,
  reading: Parameters<typeof chains.soundLook>[0],
  instrument: 'stethoscope' | 'probe' | null,
): Look => ({ at, likelihood: chains.soundLook(reading, 'novice', instrument, false) });

describe('looks after a boil that nobody saw, against every path from the dawn after it', () => {
  const seasons: readonly (readonly [string, ChainModel, readonly Look[]])[] = [
    ['surface', chains.surface, [seen(103, 'caved'), seen(105, 'depression'), seen(105, 'dip')]],
    [
      'sound, the instrument not said',
      chains.sound,
      [heard(102, 'occasional', null), heard(103, 'quiet', null), heard(106, 'steady', null)],
    ],
    [
      'sound by three instruments in one half night',
      chains.sound,
      [
        heard(104, 'quiet', 'stethoscope'),
        heard(104, 'occasional', null),
        heard(104, 'quiet', 'probe'),
      ],
    ],
  ];
  for (const [name, model, looks] of seasons) {
    test(name, () => {
      const events = [98, 100, 101];
      const end = 107;
      const { byCandidate, atHorizon } = chainEvidence(model, looks, events, { horizon: end });
      events.forEach((event, index) => {
        const naive = everyPath(model, looks, event, end);
        expect(Math.abs(Math.exp(byCandidate[index]!) / naive.total - 1)).toBeLessThan(1e-12);
        naive.atEnd.forEach((p, state) => {
          expect(Math.abs(atHorizon[index * 4 + state]! - p)).toBeLessThan(1e-12);
        });
      });
    });
  }
});

describe('an instrument that is not said', () => {
  test('is as likely the stethoscope as the probe, whatever is heard and however near the boil', () => {
    for (const reading of ['quiet', 'occasional', 'steady', 'waterfall'] as const) {
      const unsaid = chains.soundLook(reading, 'novice', null, false);
      const muffled = chains.soundLook(reading, 'novice', 'stethoscope', false);
      const plain = chains.soundLook(reading, 'novice', 'probe', false);
      unsaid.forEach((p, cell) => {
        expect(Math.abs(p - (muffled[cell]! + plain[cell]!) / 2)).toBeLessThan(1e-15);
      });
    }
  });

  test('has readings whose chances sum to 1 under every true state', () => {
    const rows = ['quiet', 'occasional', 'steady', 'waterfall'] as const;
    const looks = rows.map((reading) => chains.soundLook(reading, 'trained', null, false));
    looks[0]!.forEach((_, cell) => {
      expect(looks.reduce((sum, look) => sum + look[cell]!, 0)).toBeCloseTo(1, 12);
    });
  });
});

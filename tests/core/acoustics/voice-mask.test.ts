import { expect, test } from 'vitest';
import { VoiceMask } from '../../../src/core/acoustics/voice-mask.ts';

/** A voice of one level in every so manieth moment. */
function mask(every: number, level_db: number): VoiceMask {
  const made = new VoiceMask();
  for (let moment = 0; moment < 240; moment++) made.moment(moment % every === 0 ? level_db : null);
  return made;
}

test('without a voice every stroke stands for itself', () => {
  expect(new VoiceMask().standsFor(-60)).toBe(1);
  const silent = new VoiceMask();
  for (let moment = 0; moment < 40; moment++) silent.moment(null);
  expect(silent.standsFor(-90)).toBe(1);
});

test('where a voice hides half of the time a faint stroke stands for two, a loud one for itself', () => {
  const half = mask(2, -30);
  expect(half.standsFor(-36)).toBeCloseTo(2, 6);
  expect(half.standsFor(-20)).toBe(1);
});

test('where a voice never ends nothing is made of the few that were heard but three for one', () => {
  expect(mask(1, -30).standsFor(-40)).toBe(3);
});

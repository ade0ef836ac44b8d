import { describe, expect, test } from 'vitest';
import type { NestId } from '../../../src/core/domain/nest.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { whyTonight } from '../../../src/core/forecast/why.ts';
import { SeasonBuilder, clock, eveningOf, layNightBefore } from '../../builders/season.ts';

const today = '2026-07-20';
const asked = eveningOf(today, '22:00');
const nest = 'a' as NestId;
const odds = (p: number): number => p / (1 - p);
const chance = (season: SeasonBuilder): number =>
  forecastSeason(season.record(), asked).nests.find((n) => n.record.nest.id === nest)!.pTonight;

const plain = () => new SeasonBuilder().nest('a', { lay_night: layNightBefore(today, 53) });

describe('why a nest has the odds it has', () => {
  test('each factor is the odds with the note over the odds without it', () => {
    const without = plain();
    const withNote = plain().visit('a', today, { surface: 'depression', observer: 'Ines' });
    const reason = whyTonight(withNote.record(), asked, nest).find((r) => r.kind === 'surface')!;
    expect(reason.factor).toBeCloseTo(odds(chance(withNote)) / odds(chance(without)), 10);
    expect(reason.text).toBe('depression, tonight (Ines)');
  });

  test('names the note that it speaks of', () => {
    const season = plain().visit('a', today, { sound: 'steady', instrument: 'probe' });
    const reason = whyTonight(season.record(), asked, nest).find((r) => r.kind === 'sound')!;
    expect(season.events.map((event) => event.id as string)).toContain(reason.visit);
    expect(reason.factor).toBeGreaterThan(2);
    expect(reason.text).toContain('steady by probe');
  });

  test('puts the strongest first, whichever way it pushes', () => {
    const season = plain()
      .visit('a', layNightBefore(today, 1), { surface: 'smooth' })
      .visit('a', today, { sound: 'waterfall', instrument: 'probe' })
      .visit('a', layNightBefore(today, 2), { event: 'washover' });
    const reasons = whyTonight(season.record(), asked, nest);
    const strengths = reasons.map(({ factor }) => Math.abs(Math.log(factor)));
    expect(strengths).toEqual([...strengths].sort((a, b) => b - a));
    expect(reasons.map(({ kind }) => kind).sort()).toEqual(
      ['age', 'mishap', 'season', 'sound', 'surface'].sort(),
    );
  });

  test('tells of a watch and of a dawn without tracks', () => {
    const season = plain()
      .watch('a', today, '20:30', '21:45', 0)
      .visit('a', layNightBefore(today, 1), { kind: 'morning', tracks: 0 });
    season.visit('a', layNightBefore(today, 4), { surface: 'dip' });
    const texts = whyTonight(season.record(), asked, nest).map(({ text }) => text);
    expect(texts).toContain('dip, 16 Jul');
    expect(texts).toContain('watched, nothing came, tonight');
    expect(texts).toContain('no tracks at dawn, last night');
  });

  test('a young nest has its age to thank', () => {
    const season = new SeasonBuilder().nest('a', { lay_night: layNightBefore(today, 40) });
    const [first] = whyTonight(season.record(), asked, nest);
    expect(first).toMatchObject({ kind: 'age', text: '40 nights since it was laid' });
    expect(first!.factor).toBeLessThan(0.2);
  });

  test('a nest of unknown lay night has no age to tell of', () => {
    const season = new SeasonBuilder().nest('a', { lay_night: null });
    season.visit('a', today, { surface: 'dip' }, clock(today, '21:00'));
    const kinds = whyTonight(season.record(), asked, nest).map(({ kind }) => kind);
    expect(kinds).toEqual(['surface']);
  });

  test('there is nothing to tell of a nest that is not on record', () => {
    expect(whyTonight(plain().record(), asked, 'z' as NestId)).toEqual([]);
  });
});

import { describe, expect, test } from 'vitest';
import { asNight } from '../../../src/core/domain/night.ts';
import { nightAxis } from '../../../src/app/components/time-axis/night-axis.ts';
import { chartWindow } from '../../../src/app/screens/nest/chart-window.ts';
import { halfNights } from '../../../src/app/screens/nest/lane-marks.ts';
import { nestId, noteBefore, scratchSeason } from '../note/scratch-season.ts';

const tonight = asNight(20_666);

describe('the axis of nights', () => {
  test('gives every night the same width and puts tonight’s date on it', () => {
    const axis = nightAxis(asNight(tonight - 20), asNight(tonight + 19), 50, 350, tonight);
    expect(axis.step_px).toBeCloseTo(7.5);
    expect(axis.x_px(axis.from)).toBe(50);
    expect(axis.x_px(axis.to + 1)).toBe(350);
    expect(axis.ticks).toContain(tonight);
    const gaps = axis.ticks.slice(1).map((night, index) => night - (axis.ticks[index] ?? 0));
    expect(new Set(gaps)).toEqual(new Set([7]));
  });
});

describe('notes by half night', () => {
  test('several looks in one evening are one mark: the deepest and the loudest', async () => {
    const made = await scratchSeason();
    await noteBefore(made, 'W-014', 60, { surface: 'depression', sound: 'quiet' });
    await noteBefore(made, 'W-014', 30, { surface: 'dip', sound: 'steady' });
    await noteBefore(made, 'W-014', 10, { tracks: 0 });
    const record = made.season.record.nests.get(nestId('W-014'));
    expect(halfNights(record?.visits ?? [])).toEqual([
      {
        night: tonight,
        half: 'evening',
        depth: 2,
        loudness: 2,
        tracks: 0,
        emerged: null,
        mishap: null,
      },
    ]);
  });
});

describe('the nights on the chart', () => {
  test('reach from the last weeks to where next to all has come', async () => {
    const made = await scratchSeason();
    await noteBefore(made, 'W-014', 90 * 1440, { surface: 'smooth' });
    await noteBefore(made, 'W-014', 10, { surface: 'dip' });
    const forecast = made.season.forecast?.nests.find(({ record }) => record.nest.id === 'W-014');
    if (forecast === undefined) throw new Error('no forecast');
    const window = chartWindow(forecast.record, tonight, forecast, null, false);
    expect([tonight - window.from, window.to - tonight]).toEqual([20, 6]);
    const whole = chartWindow(forecast.record, tonight, forecast, null, true);
    expect(tonight - whole.from).toBe(90);
  });

  test('of a nest that is out end a few nights after its end', async () => {
    const made = await scratchSeason({ out: { 'W-014': 'boiled' } });
    const record = made.season.record.nests.get(nestId('W-014'));
    if (record === undefined) throw new Error('no record');
    const window = chartWindow(record, tonight, null, asNight(tonight - 30), false);
    expect(window.to).toBe(tonight - 27);
    expect(window.from).toBeLessThanOrEqual(tonight - 34);
  });
});

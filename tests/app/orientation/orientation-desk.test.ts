import { describe, expect, test } from 'vitest';
import { OrientationDesk } from '../../../src/app/screens/orientation/orientation-desk.svelte.ts';
import { reportGroups, reportText } from '../../../src/app/screens/orientation/report-fields.ts';
import { bearingOf, pointAt } from '../../../src/app/components/dial/dial-geometry.ts';
import { asNight } from '../../../src/core/domain/night.ts';
import { nestId, scratchSeason } from '../note/scratch-season.ts';

const night = asNight(20_666);
const lamp = { kind: 'window', colour: 'white', place: 'by the pier' } as const;

async function deskAt(seaward_deg: number | null = 90) {
  const made = await scratchSeason();
  return { ...made, desk: new OrientationDesk(made.season, nestId('W-014'), night, seaward_deg) };
}

describe('the dial', () => {
  test('has the sea up, and gives back the bearing of the point it drew', () => {
    for (const up_deg of [0, 90, 215]) {
      for (const bearing_deg of [0, 45, 90, 181, 359]) {
        expect(bearingOf(pointAt(bearing_deg, 100, up_deg), up_deg)).toBe(bearing_deg);
      }
    }
    expect(pointAt(90, 100, 90)).toEqual({ x: 160, y: 60 });
    expect(bearingOf({ x: 160, y: 160 }, 90)).toBeNull();
  });

  test('turns by small steps over north', async () => {
    const { desk } = await deskAt();
    desk.point(359);
    desk.turn(10);
    expect(desk.pointer_deg).toBe(9);
    desk.turn(-10);
    expect(desk.pointer_deg).toBe(359);
  });
});

describe('a record of which way they went', () => {
  test('holds tracks, outermost, main way, lamps, what became of those astray', async () => {
    const { desk, season } = await deskAt();
    for (const bearing of [80, 100, 130]) {
      desk.point(bearing);
      desk.takeBearing(lamp);
    }
    desk.takeBack();
    desk.aimAt('main');
    desk.point(95);
    desk.takeBearing(lamp);
    desk.aimAt('lamp');
    desk.point(200);
    desk.takeBearing(lamp);
    desk.change({ astray: 3 });
    desk.setFate('fate_unknown', 2);
    expect(await desk.save('West', 'full moon')).not.toBeNull();
    const [recorded] = season.record.nests.get(nestId('W-014'))?.orientations ?? [];
    expect(recorded?.fact.details).toMatchObject({
      track_bearings: [80, 100],
      tracks_counted: 2,
      modal_deg: 95,
      seaward_deg: 90,
      disoriented: 3,
      fate_unknown: 2,
      lamps: ['window/white/200/by the pier'],
      light_source: 'white window, by the pier',
      moon: 'full moon',
      zone: 'West',
    });
    expect(desk.isWorthSaving).toBe(false);
  });

  test('asks for the line to the sea first where the zone has none', async () => {
    const { desk } = await deskAt(null);
    expect(desk.aim).toBe('seaward');
    desk.point(77);
    desk.takeBearing(lamp);
    expect(desk.draft.seaward_deg).toBe(77);
    expect(desk.aim).toBe('track');
  });

  test('that could not be kept stays on the screen, with what to do', async () => {
    const { desk, log } = await deskAt();
    desk.change({ counted: 12 });
    log.isFull = true;
    expect(await desk.save(null, null)).toBeNull();
    expect(desk.trouble).toContain('The device is full');
    expect(desk.draft.counted).toBe(12);
  });
});

test('the report leaves a line to fill in for what is not on record, and points to the agency’s own form', async () => {
  const { desk, season } = await deskAt();
  desk.change({ counted: 30, astray: 4 });
  await desk.save('West', null);
  const record = season.record.nests.get(nestId('W-014'));
  const fact = record?.orientations[0]?.fact;
  if (record === undefined || fact === undefined) throw new Error('both are on record');
  const text = reportText('Report', reportGroups(record, fact, null), []);
  expect(text).toContain('Disoriented, estimated: 4');
  expect(text).toContain('Permit number: ____');
  expect(text).toContain('Check your agency’s own form.');
});

import { readFile } from 'node:fs/promises';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { firstdark, put, scratch } from '../builders/command-line.ts';

const Time = z.string().check(z.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d[+-]\d\d:\d\d$/));
const RosterJson = z.object({
  nights: z.array(
    z.object({
      night: z.string(),
      posts: z.array(
        z.object({
          post: z.string(),
          nests: z.array(z.string()),
          from: Time,
          to: Time,
          sitters: z.array(z.string()),
          value: z.number().check(z.gte(0)),
        }),
      ),
    }),
  ),
  objective: z.number(),
  bound: z.number(),
  gap: z.number().check(z.gte(0)),
  seconds: z.number().check(z.gte(0)),
  unmet: z.array(z.object({ night: z.string(), message: z.string() })),
});

let room: Awaited<ReturnType<typeof scratch>>;
let folder = '';
beforeAll(async () => {
  room = await scratch();
  folder = await put(`${room.path}/season`, {
    'programme.json':
      '{"name":"Invented Bay","time_zone":"America/New_York","latitude":33,"longitude":-79}',
    'nests.csv': [
      'nest,species,lay_night,zone,shore_m,clutch',
      'W-1,Caretta caretta,2026-05-26,south,100,110',
      'W-2,Caretta caretta,2026-05-27,south,130,100',
      'W-3,Caretta caretta,2026-05-28,south,900,90',
      '',
    ].join('\n'),
    'volunteers.csv': [
      'volunteer,experience,zones,max_shifts_week,team',
      'Ada,lead,,2,',
      'Bo,novice,south,,',
      'Cy,trained,,,',
      'Di,novice,,,',
      'Ed,lead,north,,',
      '',
    ].join('\n'),
    'availability.csv': [
      'volunteer,night,from,to',
      ...['20', '21', '22'].flatMap((day) =>
        ['Ada', 'Bo', 'Cy', 'Di', 'Ed'].map((name) => `${name},2026-07-${day},,`),
      ),
      '',
    ].join('\n'),
  });
});
afterAll(() => room.drop());

const ask = (...more: string[]) => firstdark('roster', folder, '--night', '2026-07-20', ...more);

describe('firstdark roster', () => {
  test('places pairs by the rules, on every night asked for, with the bound they are measured by', async () => {
    const ics = `${room.path}/plan.ics`;
    const { code, out } = await ask('--nights', '3', '--json', '--ics', ics);
    expect(code).toBe(0);
    const { nights, objective, bound, gap, unmet } = RosterJson.parse(JSON.parse(out));
    expect(nights.map(({ night }) => night)).toEqual(['2026-07-20', '2026-07-21', '2026-07-22']);
    const posts = nights.flatMap((entry) => entry.posts);
    expect(posts.map(({ post }) => post)).toContain('W-1+W-2');
    for (const { sitters } of posts) {
      expect(sitters).toHaveLength(2);
      expect(sitters).not.toContain('Ed');
      expect(sitters.some((name) => name === 'Ada' || name === 'Cy')).toBe(true);
    }
    for (const name of ['Ada', 'Bo', 'Cy', 'Di']) {
      const sits = nights.map(
        (entry) => entry.posts.filter(({ sitters }) => sitters.includes(name)).length,
      );
      expect(Math.max(...sits)).toBeLessThanOrEqual(1);
      expect(sits[1] === 0 || (sits[0] === 0 && sits[2] === 0)).toBe(true);
    }
    expect(objective).toBeCloseTo(
      posts.reduce((sum, { value }) => sum + value, 0),
      9,
    );
    expect(objective).toBeGreaterThan(0.1);
    expect(bound).toBeGreaterThanOrEqual(objective);
    expect(gap).toBeLessThan(0.01);
    expect(unmet.map(({ night }) => night)).toEqual(
      nights.filter((entry) => entry.posts.length === 0).map(({ night }) => night),
    );
    const calendar = new ICAL.Component(ICAL.parse(await readFile(ics, 'utf8')) as unknown[]);
    expect(calendar.getAllSubcomponents('vevent')).toHaveLength(posts.length);
  });

  test('without --json prints the plan and what no plan could better', async () => {
    const { code, out } = await ask();
    expect(code).toBe(0);
    expect(out).toMatch(/^Night of 2026-07-20\n {2}20:\d\d to 01:00 {2}W-1\+W-2/);
    expect(out).toContain('no plan can bring more than');
  });

  test('says what is wrong with a number of nights, and with a calendar that cannot be written', async () => {
    const many = await ask('--nights', '15');
    expect([many.code, many.err]).toEqual([2, expect.stringContaining('expected at most 14')]);
    const nowhere = await ask('--ics', `${room.path}/nowhere/plan.ics`);
    expect([nowhere.code, nowhere.err]).toEqual([
      1,
      expect.stringContaining('could not be written'),
    ]);
  });
});

import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod';
import { firstdark, scratch } from '../builders/command-line.ts';
import { fixtureFolder, fixtures, matched } from '../builders/sounds.ts';

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => void (room = await scratch()));
afterAll(() => room.drop());

const Share = z.number().min(0).max(1);
const Listened = z.object({
  seconds: z.number(),
  events: z.array(z.object({ t: z.number(), db: z.number() })),
  scratch_per_min: z.nullable(z.number()),
  active_share: z.nullable(Share),
  level_db: z.number(),
  state: z.string(),
  probabilities: z.object({ quiet: Share, occasional: Share, steady: Share, waterfall: Share }),
  warnings: z.array(z.string()),
});

describe('listen', () => {
  test('gives the agreed document for a recording', async () => {
    const { code, out, err } = await firstdark(
      'listen',
      join(fixtureFolder, 'steady.wav'),
      '--json',
    );
    expect([code, err]).toEqual([0, '']);
    const found = Listened.parse(JSON.parse(out));
    const { onsets_s } = fixtures.find(({ file }) => file === 'steady.wav')!;
    expect(
      matched(
        onsets_s,
        found.events.map(({ t }) => t),
      ),
    ).toEqual({
      hits: onsets_s.length,
      extras: 0,
    });
    expect(found).toMatchObject({ seconds: 16, state: 'steady', warnings: [] });
    expect(found.probabilities.steady).toBeGreaterThan(0.5);
    expect(found.level_db).toBeGreaterThan(6);
  });

  test('says that it can not tell rather than guess, and why', async () => {
    const { out } = await firstdark('listen', join(fixtureFolder, 'footsteps.wav'), '--json');
    const found = Listened.parse(JSON.parse(out));
    expect(found).toMatchObject({ state: 'can not tell', events: [] });
    expect(found.warnings.join(' ')).toMatch(/Hold still: footsteps heard/);
    const { out: text } = await firstdark('listen', join(fixtureFolder, 'rain.wav'));
    expect(text).toMatch(/^rain\.wav: can not tell\n[^]*! Sounds like rain/);
  });

  test('ends with 1 and says what is wrong with a broken file, with 2 without a file', async () => {
    await mkdir(room.path, { recursive: true });
    const path = join(room.path, 'notes.wav');
    await writeFile(path, 'these are no sounds');
    expect(await firstdark('listen', path, '--json')).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringMatching(/^notes\.wav:0:-: It is no WAV file/) as string,
    });
    expect(await firstdark('listen', join(room.path, 'none.wav'))).toMatchObject({
      code: 1,
      err: expect.stringMatching(/^none\.wav:0:-: it can not be read/) as string,
    });
    expect(await firstdark('listen')).toMatchObject({ code: 2 });
  });
});

import { render, screen, within } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { describe, expect, test } from 'vitest';
import Season from '../../../src/app/screens/season/Season.svelte';
import type { App } from '../../../src/app/state/app.ts';
import { appKey } from '../../../src/app/state/context.ts';
import { OddsReplay } from '../../../src/app/state/odds-replay.svelte.ts';
import type { ReplayTold } from '../../../src/app/workers/backtest-messages.ts';
import { backtest } from '../../../src/core/forecast/backtest.ts';
import { NestDetails } from '../../../src/core/domain/nest.ts';
import { SeasonBuilder } from '../../builders/season.ts';
import { scratchSeason } from '../note/scratch-season.ts';

/** A Season screen over three nests of two zones, two of them up; tells a replay what to say. */
async function shown(dark = false) {
  const nest = (zone: string, lay_night: string) => NestDetails.parse({ zone, lay_night });
  const made = await scratchSeason({
    dark,
    nests: {
      'W-001': nest('West', '2026-06-05'),
      'W-014': nest('West', '2026-06-20'),
      'E-007': nest('East', '2026-06-06'),
    },
    out: { 'W-001': 'boiled', 'E-007': 'boiled' },
  });
  let begun = 0;
  let tell: (word: ReplayTold) => void = () => undefined;
  const app = {
    ...(made.context.get(appKey) as App),
    oddsReplay: new OddsReplay((_, told) => {
      tell = told;
      begun++;
      return () => undefined;
    }),
    seasons: { finished: null },
  };
  const context = new Map(made.context).set(appKey, app);
  render(Season, { context });
  return { tell: (word: ReplayTold) => tell(word), begun: () => begun };
}

function figure(title: string): HTMLElement {
  const found = screen.getByRole('heading', { name: title }).closest('figure');
  if (found === null) throw new Error(`No figure is called ${title}.`);
  return found;
}

const cells = (title: string): string[] =>
  within(figure(title))
    .getAllByRole('row')
    .map((row) =>
      [...row.children].map((cell) => cell.textContent.replace(/\s+/g, ' ').trim()).join(' '),
    );

describe('the season', () => {
  test('is told in drawings that have their tables', async () => {
    await shown();
    expect(figure('Emergences met, missed, unseen')).toHaveTextContent('3 nests, 2 came up');
    expect(cells('Emergences met, missed, unseen')).toContain('Missed: only tracks told 2 67 %');
    expect(cells('Incubation by lay week and zone').join('|')).toMatch(/East 1 54 – 54 to 54/);
  });

  test('of one zone counts the nests of that zone alone', async () => {
    await shown();
    const zone = screen.getByLabelText<HTMLSelectElement>('Zone');
    zone.value = 'East';
    zone.dispatchEvent(new Event('change', { bubbles: true }));
    flushSync();
    expect(cells('Emergences met, missed, unseen')).toContain('All 1 ');
  });

  test('at night has its figures and nothing to type in or print', async () => {
    await shown(true);
    expect(figure('Losses by cause')).toBeVisible();
    expect(document.querySelectorAll('input, select, textarea')).toHaveLength(0);
    expect(screen.queryByRole('button', { name: 'Print the report' })).toBeNull();
  });
});

test('a replay shows how far it is, can be stopped, and gives scores beside the calendar rules', async () => {
  const { tell, begun } = await shown();
  const begin = () => {
    screen.getByRole('button', { name: 'Replay the season' }).click();
    flushSync();
  };
  begin();
  screen.getByRole('button', { name: 'Stop' }).click();
  flushSync();
  begin();
  await expect.poll(begun).toBe(1);
  tell({ kind: 'evening', done: 1, of: 4 });
  flushSync();
  expect(screen.getByRole('status')).toHaveTextContent('25 %');
  const season = new SeasonBuilder()
    .nest('N-1', { lay_night: '2026-05-01' })
    .visit('N-1', '2026-06-25', { kind: 'morning', tracks: 60 })
    .record();
  tell({ kind: 'done', backtest: backtest(season) });
  flushSync();
  const scores = screen.getByRole('table', { name: /^Scores/ });
  expect(within(scores).getAllByRole('row')).toHaveLength(4);
  expect(scores).toHaveTextContent(/Our odds.*Day 55.*Learned mean/s);
  expect(cells('Boils met against pairs placed')[1]).toBe('1 100 % 100 % 100 %');
});

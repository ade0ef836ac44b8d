import { describe, expect, test } from 'vitest';
import { greedyPlan } from '../../../src/core/roster/greedy-plan.ts';
import { makeRoster } from '../../../src/core/roster/make-roster.ts';
import { openingsOf } from '../../../src/core/roster/openings.ts';
import { planChanges } from '../../../src/core/roster/plan-changes.ts';
import { type Roster, placementsOf } from '../../../src/core/roster/plan.ts';
import type { RosterQuestion } from '../../../src/core/roster/roster-question.ts';
import { highsSolver } from '../../../src/edges/solver/highs.ts';
import {
  drawQuestion,
  hour,
  outlook,
  pin,
  post,
  question,
  sitter,
} from '../../builders/roster-question.ts';
import { firstNight } from '../../builders/roster-question.ts';
import { wrongsOf } from '../../reference/roster/brute-force.ts';

const solver = highsSolver();
const plan = (asked: RosterQuestion): Promise<Roster> =>
  makeRoster(asked, solver, { time_s: 20, gap: 0 });
const who = (roster: Roster): string[] =>
  roster.plan.posts.map(
    ({ night, post: { id }, sitters }) => `${night - firstNight} ${id} ${sitters.join(' ')}`,
  );

const oneNight = {
  nights: [outlook(0, { A: 0.6, B: 0.3 })],
  posts: [post('A'), post('B')],
};

describe('a plan', () => {
  test('puts the pair where a boil is likeliest, for as long as both are there', async () => {
    const sitters = [sitter('Ada', [0]), sitter('Bo', [0], { hours: [20, 23] })];
    const { plan: made, gap } = await plan(question({ ...oneNight, sitters }));
    expect(made.posts).toHaveLength(1);
    expect(made.posts[0]).toMatchObject({ sitters: ['Ada', 'Bo'], to_ms: hour(firstNight, 23) });
    expect(made.value).toBeCloseTo(0.6 * 0.5, 9);
    expect(gap).toBe(0);
  });

  test('pairs people whose hours go together', async () => {
    const sitters = [
      sitter('Ada', [0], { hours: [19, 22] }),
      sitter('Bo', [0], { hours: [22, 26] }),
      sitter('Cy', [0], { hours: [19, 22] }),
      sitter('Di', [0], { hours: [22, 26] }),
    ];
    expect(who(await plan(question({ ...oneNight, sitters })))).toEqual([
      '0 A Bo Di',
      '0 B Ada Cy',
    ]);
  });

  test('leaves nobody without somebody trained or lead', async () => {
    const sitters = ['Ada', 'Bo', 'Cy', 'Di'].map((name) =>
      sitter(name, [0], { experienced: name === 'Ada' }),
    );
    const { plan: made } = await plan(question({ ...oneNight, sitters }));
    expect(made.posts).toHaveLength(1);
    expect(made.posts[0]?.sitters).toContain('Ada');
  });

  test('keeps somebody who may sit once for the night on which it matters most', async () => {
    const nights = [outlook(0, { A: 0.2 }), outlook(1, { A: 0.5 }), outlook(2, { A: 0.1 })];
    const sitters = ['Ada', 'Bo'].map((name) => sitter(name, [0, 1, 2], { mostShiftsWeek: 1 }));
    expect(who(await plan(question({ nights, posts: [post('A')], sitters })))).toEqual([
      '1 A Ada Bo',
    ]);
  });

  test('gives no two nights in a row to those not willing, counting the night before it begins', async () => {
    const nights = [0, 1, 2].map((ahead) => outlook(ahead, { A: 0.3 }));
    const resting = ['Ada', 'Bo'].map((name) => sitter(name, [0, 1, 2], { backToBack: false }));
    const asked = question({ nights, posts: [post('A')], sitters: resting });
    expect(who(await plan(asked))).toEqual(['0 A Ada Bo', '2 A Ada Bo']);
    const sat = resting.map((entry) => ({
      ...entry,
      sat: [(firstNight - 1) as typeof firstNight],
    }));
    expect(who(await plan({ ...asked, sitters: sat }))).toEqual(['1 A Ada Bo']);
  });

  test('of plans worth the same asks those who have sat least', async () => {
    const sat = [firstNight - 3, firstNight - 5] as (typeof firstNight)[];
    const sitters = [
      sitter('Ada', [0], { sat }),
      sitter('Bo', [0]),
      sitter('Cy', [0], { sat: sat.slice(0, 1) }),
    ];
    const one = { nights: [outlook(0, { A: 0.6 })], posts: [post('A')] };
    expect(who(await plan(question({ ...one, sitters })))).toEqual(['0 A Bo Cy']);
  });

  test('looks for hatchlings at stake instead of boils when told to', async () => {
    const dark = outlook(0, { A: 0.6, B: 0.3 });
    const lit = {
      ...dark,
      chances: dark.chances.map((chance) => ({ ...chance, atStake: chance.nest === 'B' ? 60 : 5 })),
    };
    const sitters = [sitter('Ada', [0]), sitter('Bo', [0])];
    const asked = question({
      nights: [lit],
      posts: oneNight.posts,
      sitters,
      rules: { goal: 'hatchlings' },
    });
    expect(who(await plan(asked))).toEqual(['0 B Ada Bo']);
  });

  test('keeps a second watch to dawn, and nobody sits both', async () => {
    const sitters = ['Ada', 'Bo', 'Cy', 'Di'].map((name) => sitter(name, [0]));
    const asked = question({
      nights: [outlook(0, { A: 0.6 })],
      posts: [post('A')],
      sitters,
      rules: { watches: ['evening', 'late'] },
    });
    const { plan: made } = await plan(asked);
    expect(made.posts.map(({ watch }) => watch)).toEqual(['evening', 'late']);
    expect(new Set(made.posts.flatMap((entry) => entry.sitters)).size).toBe(4);
    expect(made.value).toBeCloseTo(0.6, 9);
  });
});

describe('a plan within what the lead asks for', () => {
  test('keeps no more posts at once than are allowed, and those the best', async () => {
    const sitters = ['Ada', 'Bo', 'Cy', 'Di'].map((name) => sitter(name, [0]));
    const asked = question({ ...oneNight, sitters, rules: { mostPosts: 1 } });
    expect(who(await plan(asked))).toEqual([expect.stringMatching(/^0 A /)]);
    expect(
      (await plan({ ...asked, rules: { ...asked.rules, mostPosts: 2 } })).plan.posts,
    ).toHaveLength(2);
  });

  test('takes the walk there and back off the time at a far post', async () => {
    const sitters = ['Ada', 'Bo'].map((name) => sitter(name, [0], { hours: [20, 24] }));
    const far = question({
      nights: [outlook(0, { A: 0.6 })],
      posts: [post('A', null, 30)],
      sitters,
    });
    const { plan: made } = await plan(far);
    expect(made.posts[0]).toMatchObject({
      from_ms: hour(firstNight, 20.5),
      to_ms: hour(firstNight, 23.5),
    });
    expect(made.value).toBeCloseTo(0.6 * 0.5, 9);
    // As likely and near, a post is worth the more for it.
    const both = question({
      nights: [outlook(0, { A: 0.6, B: 0.6 })],
      posts: [post('A', null, 30), post('B')],
      sitters,
    });
    expect(who(await plan(both))).toEqual(['0 B Ada Bo']);
  });
});

describe('what the lead has settled by hand', () => {
  test('stays, a person at a post and a post itself, though it is worth less', async () => {
    const sitters = [sitter('Ada', [0]), sitter('Bo', [0])];
    const pinned = question({ ...oneNight, sitters, pins: [pin(0, 'B', 'Ada')] });
    expect(who(await plan(pinned))).toEqual(['0 B Ada Bo']);
    const kept = question({ ...oneNight, sitters, pins: [pin(0, 'B', null)] });
    expect(who(await plan(kept))).toEqual(['0 B Ada Bo']);
  });

  test('comes before what somebody said, and the lead is told to ask', async () => {
    const sitters = [sitter('Ada', []), sitter('Bo', [0])];
    const {
      plan: made,
      notices,
      unmet,
    } = await plan(question({ ...oneNight, sitters, pins: [pin(0, 'A', 'Ada')] }));
    expect(made.posts[0]?.sitters).toEqual(['Ada', 'Bo']);
    expect(unmet).toEqual([]);
    expect(notices.map(({ text }) => text)).toEqual([
      'Night of 3 July, A: Ada is pinned there and has not offered this night. Ask them.',
    ]);
  });

  test('that cannot be is told with the night, who is missing and what to do', async () => {
    const sitters = [
      sitter('Ada', [0]),
      sitter('Bo', []),
      sitter('Cy', [0], { sat: [(firstNight - 1) as typeof firstNight], backToBack: false }),
    ];
    const { plan: made, unmet } = await plan(
      question({ ...oneNight, sitters, pins: [pin(0, 'A', 'Ada')] }),
    );
    expect(made.posts).toEqual([]);
    expect(unmet[0]?.text).toBe(
      'Night of 3 July, A: one more person is needed: Ada is pinned there, nobody else is free. Cy sat the night before; 1 more did not offer this night. Ask one of them, or release the pin.',
    );
  });

  test('in two places at once is kept in one of them, and told', async () => {
    const sitters = ['Ada', 'Bo', 'Cy', 'Di'].map((name) => sitter(name, [0]));
    const pins = [pin(0, 'A', 'Ada'), pin(0, 'B', 'Ada')];
    const { plan: made, unmet } = await plan(question({ ...oneNight, sitters, pins }));
    expect(made.posts).toHaveLength(2);
    expect(unmet.map(({ text }) => text)).toEqual([
      expect.stringMatching(/Ada is pinned to [AB] too\. Release one of the two\./),
    ]);
  });

  test('at a nest that has come up is told', async () => {
    const { unmet } = await plan(question({ ...oneNight, sitters: [], pins: [pin(0, 'Z', null)] }));
    expect(unmet[0]?.text).toContain('nest Z is not to be watched on that night');
  });

  test('of all kinds at once is kept as far as it can be, within the rules for the rest', async () => {
    let kept = 0;
    for (let seed = 50; seed < 53; seed++) {
      const asked = drawQuestion({
        seed,
        people: 8,
        posts: 4,
        nights: 3,
        zones: 2,
        offered: 0.6,
        pins: 4,
      });
      const roster = await plan(asked);
      for (const { night, nest, sitter: name } of asked.pins) {
        const there = roster.plan.posts.some(
          (entry) =>
            entry.night === night &&
            entry.post.nests.includes(nest) &&
            (name === null || entry.sitters.includes(name)),
        );
        const told = roster.unmet.some(
          (entry) => entry.night === night && (entry.post ?? '').includes(nest),
        );
        expect(there || told, `seed ${seed} ${nest}`).toBe(true);
        if (there) kept += 1;
      }
      const byHand = new Set(asked.pins.map(({ sitter: name }) => name));
      expect(
        wrongsOf(asked, roster.plan.posts).filter(
          (wrong) => ![...byHand].some((name) => name !== null && wrong.includes(name)),
        ),
      ).toEqual([]);
    }
    expect(kept).toBeGreaterThan(7);
  });
});

describe('planning again', () => {
  test('changes nothing when nothing has changed, whatever else is worth as much', async () => {
    const asked = drawQuestion({
      seed: 7,
      people: 14,
      posts: 6,
      nights: 4,
      zones: 2,
      offered: 0.5,
    });
    const first = await plan(asked);
    const again = await plan({ ...asked, before: placementsOf(first.plan) });
    expect(again.plan).toEqual(first.plan);
  });

  test('replaces one who cannot come, and leaves all the others where they are', async () => {
    const sitters = ['Ada', 'Bo', 'Cy', 'Di', 'Ed'].map((name) => sitter(name, [0]));
    const asked = question({ ...oneNight, sitters });
    const first = await plan(asked);
    const gone = first.plan.posts[0]!.sitters[0]!;
    const again = await plan({
      ...asked,
      before: placementsOf(first.plan),
      sitters: sitters.map((entry) =>
        entry.name === gone ? { ...entry, free: new Map() } : entry,
      ),
    });
    const had = new Set(
      who(first).flatMap((line) =>
        line
          .split(' ')
          .slice(2)
          .map((name) => `${line.split(' ')[1]} ${name}`),
      ),
    );
    const has = who(again).flatMap((line) =>
      line
        .split(' ')
        .slice(2)
        .map((name) => `${line.split(' ')[1]} ${name}`),
    );
    expect(again.plan.posts).toHaveLength(2);
    expect(has.filter((place) => !had.has(place))).toHaveLength(1);
  });
});

describe('a plan mended by hand', () => {
  test('takes nobody from one crew to help another', () => {
    let shifts = 0;
    for (let seed = 70; seed < 76; seed++) {
      const asked = drawQuestion({
        seed,
        people: 30,
        posts: 12,
        nights: 7,
        zones: 2,
        offered: 0.5,
      });
      const before = placementsOf(greedyPlan(asked, openingsOf(asked)));
      const gone = before[0]!.sitter;
      const sitters = asked.sitters.map((entry) =>
        entry.name === gone ? { ...entry, free: new Map() } : entry,
      );
      const mended = { ...asked, before, sitters };
      const after = placementsOf(greedyPlan(mended, openingsOf(mended)));
      const lost = before.filter(({ sitter: name }) => name === gone).length;
      // For each shift one goes and one comes, or both of a crew go and sit somewhere else.
      expect(planChanges(before, after).length, `seed ${seed}`).toBeLessThanOrEqual(4 * lost);
      shifts += lost;
    }
    expect(shifts).toBeGreaterThan(10);
  });
});

describe('nights without a plan', () => {
  test('say who is there and who is missing', async () => {
    const nights = [0, 1, 2].map((ahead) => outlook(ahead, { A: 0.3 }));
    const sitters = [
      sitter('Ada', [1]),
      sitter('Bo', [2], { experienced: false }),
      sitter('Cy', [2], { experienced: false }),
    ];
    const { unmet } = await plan(question({ nights, posts: [post('A')], sitters }));
    expect(unmet.map(({ text }) => text)).toEqual([
      'Night of 3 July: nobody is free. 3 more did not offer this night.',
      'Night of 4 July: only Ada is free, and a post needs 2. 2 more did not offer this night.',
      'Night of 5 July: Bo and Cy are free, and none of them is trained or lead. 1 more did not offer this night.',
    ]);
  });
});

describe('a solver that fails', () => {
  test('leaves the plan made step by step, and says so', async () => {
    const asked = drawQuestion({
      seed: 3,
      people: 10,
      posts: 4,
      nights: 3,
      zones: 2,
      offered: 0.6,
    });
    const broken = {
      solve: () =>
        Promise.resolve({ state: 'failed', message: 'out of memory.', took_s: 0 } as const),
    };
    const roster = await makeRoster(asked, broken, { time_s: 1, gap: 0 });
    expect(roster.plan).toEqual(greedyPlan(asked, openingsOf(asked)));
    expect(roster.trouble).toContain('out of memory. This plan was made step by step instead.');
    expect(roster.bound).toBeGreaterThanOrEqual((await plan(asked)).plan.value - 1e-9);
  });
});

describe('a plan made in no time', () => {
  test('is worth no less than the one made step by step, nor is one made at leisure', async () => {
    let better = 0;
    for (let seed = 60; seed < 68; seed++) {
      const asked = drawQuestion({
        seed,
        people: 12,
        posts: 5,
        nights: 4,
        zones: 2,
        offered: 0.5,
      });
      const least = greedyPlan(asked, openingsOf(asked)).value;
      for (const time_s of [0.001, 20]) {
        const roster = await makeRoster(asked, solver, { time_s, gap: 0.01 });
        expect(roster.plan.value, `seed ${seed}`).toBeGreaterThanOrEqual(least - 1e-5);
        if (roster.plan.value > least + 1e-5) better += 1;
      }
    }
    expect(better).toBeGreaterThan(0);
  });
});

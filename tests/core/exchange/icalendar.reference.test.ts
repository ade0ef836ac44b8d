import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { parseInstant } from '../../../src/core/domain/instant.ts';
import { PublishedPost } from '../../../src/core/domain/roster.ts';
import { type RevisedNight, calendarText } from '../../../src/core/exchange/icalendar.ts';
import { revisedNights } from '../../../src/core/exchange/revised-nights.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { Pen } from '../../arbitraries/written.ts';

// Truth: ical.js, a reader of RFC 5545 by other people, with the zone as it is written in the text.

const post = (from: string, to: string, nests: readonly string[], sitters: readonly string[]) =>
  PublishedPost.parse({ watch: 'evening', from, to, nests, sitters });

function night(text: string, ...revisions: readonly PublishedPost[][]): RevisedNight {
  return {
    night: text,
    revisions: revisions.map((posts, index) => ({
      written_ms: Date.UTC(2026, 6, 1, 12, index),
      posts,
    })),
  };
}

function read(text: string): ICAL.Event[] {
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  const zones = calendar.getAllSubcomponents('vtimezone');
  ICAL.TimezoneService.reset();
  for (const zone of zones) ICAL.TimezoneService.register(new ICAL.Timezone(zone));
  return calendar.getAllSubcomponents('vevent').map((event) => new ICAL.Event(event));
}

const ms = (time: ICAL.Time): number => time.toUnixTime() * 1000;
const own = { programme: 'Invented Bay', zone: 'America/New_York', person: 'Ada' } as const;

describe('a calendar as another program reads it', () => {
  test('has every shift at its instant, on both sides of a change of the clocks and over it', () => {
    const cases = [
      ['America/New_York', '2026-10-31T21:00-04:00', '2026-11-01T02:00-05:00'],
      ['America/New_York', '2026-10-30T21:00-04:00', '2026-10-31T01:00-04:00'],
      ['America/New_York', '2026-11-02T21:00-05:00', '2026-11-03T01:00-05:00'],
      ['America/New_York', '2026-03-07T21:00-05:00', '2026-03-08T03:30-04:00'],
      ['Europe/Athens', '2026-10-24T21:00+03:00', '2026-10-25T04:30+02:00'],
      ['Australia/Brisbane', '2026-10-04T20:00+10:00', '2026-10-05T01:00+10:00'],
      ['Australia/Lord_Howe', '2026-10-03T20:00+10:30', '2026-10-04T03:00+11:00'],
    ] as const;
    for (const [zone, from, to] of cases) {
      const text = calendarText(
        [night(from.slice(0, 10), [post(from, to, ['W-1'], ['Ada', 'Bo'])])],
        { ...own, zone },
      );
      const [event] = read(text);
      expect(ms(event!.startDate), `${zone} ${from}`).toBe(parseInstant(from));
      expect(ms(event!.endDate), `${zone} ${to}`).toBe(parseInstant(to));
      expect(event!.startDate.zone.tzid).toBe(zone);
      expect(event!.startDate.hour).toBe(Number(from.slice(11, 13)));
      expect(text).toContain('\r\nDTSTAMP:20260701T120000Z\r\n');
    }
  });

  test('names the nests, the company, and the manners', () => {
    const plan = night('2026-07-20', [
      post('2026-07-20T21:00-04:00', '2026-07-21T01:00-04:00', ['W-1', 'W-2'], ['Ada', 'Bo']),
    ]);
    const [event] = read(calendarText([plan], own));
    expect(event?.summary).toBe('Nest watch, nests W-1, W-2');
    expect(event?.description).toContain('With Bo. No white light');
  });

  test('keeps the name of an entry when the plan is given out anew, and counts the times', () => {
    const first = post('2026-07-20T21:00-04:00', '2026-07-21T01:00-04:00', ['W-1'], ['Ada', 'Bo']);
    const later = post('2026-07-20T22:00-04:00', '2026-07-21T01:00-04:00', ['W-7'], ['Ada', 'Cy']);
    const [before] = read(calendarText([night('2026-07-20', [first])], own));
    const [after] = read(calendarText([night('2026-07-20', [first], [later])], own));
    expect(after?.uid).toBe(before?.uid);
    expect([before?.sequence, after?.sequence]).toEqual([0, 1]);
    expect(after?.summary).toBe('Nest watch, nest W-7');
    expect(read(calendarText([night('2026-07-21', [first])], own))[0]?.uid).not.toBe(before?.uid);
    expect(
      read(calendarText([night('2026-07-20', [first])], { ...own, person: 'Bo' }))[0]?.uid,
    ).not.toBe(before?.uid);
  });

  test('takes back what is no longer in the plan', () => {
    const first = post('2026-07-20T21:00-04:00', '2026-07-21T01:00-04:00', ['W-1'], ['Ada', 'Bo']);
    const [event] = read(calendarText([night('2026-07-20', [first], [])], own));
    expect(event?.component.getFirstPropertyValue('status')).toBe('CANCELLED');
  });

  test('of everybody has one entry for each post', () => {
    const posts = [
      post('2026-07-20T21:00-04:00', '2026-07-21T01:00-04:00', ['W-1'], ['Ada', 'Bo']),
      post('2026-07-20T21:00-04:00', '2026-07-21T01:00-04:00', ['W-2'], ['Cy', 'Di']),
    ];
    const events = read(calendarText([night('2026-07-20', posts)], { ...own, person: null }));
    expect(events.map(({ summary }) => summary)).toEqual(['nest W-1: Ada, Bo', 'nest W-2: Cy, Di']);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(2);
  });

  test('folds long lines, and holds names that the format has signs in', () => {
    const odd = 'Ada; the "quick", \\ one '.repeat(6).trim();
    const plan = night('2026-07-20', [
      post('2026-07-20T21:00-04:00', '2026-07-21T01:00-04:00', ['W,1;'], ['Ada', odd]),
    ]);
    const text = calendarText([plan], own);
    for (const line of text.split('\r\n'))
      expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    const [event] = read(text);
    expect(event?.description).toContain(`With ${odd}.`);
    expect(event?.summary).toBe('Nest watch, nest W,1;');
  });
});

test('the record knows every plan that was given out for a night, and that one was taken back', () => {
  const pen = new Pen();
  const details = (sitters: string[]) =>
    ({
      night: '2026-07-20',
      posts: [post('2026-07-20T21:00-04:00', '2026-07-21T01:00-04:00', ['W-1'], sitters)],
    }) as never;
  const first = pen.write({ kind: 'night-published', details: details(['Ada', 'Bo']) });
  const second = pen.write({ kind: 'night-published', details: details(['Ada', 'Cy']) });
  const sitters = (events: Parameters<typeof fold>[0]) =>
    revisedNights(fold(events))[0]?.revisions.map(({ posts }) =>
      posts.flatMap((entry) => entry.sitters),
    );
  expect(sitters([second, first])).toEqual([
    ['Ada', 'Bo'],
    ['Ada', 'Cy'],
  ]);
  expect(sitters([first, pen.withdraw(first.id)])).toEqual([['Ada', 'Bo'], []]);
});

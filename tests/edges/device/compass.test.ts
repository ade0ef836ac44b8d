import { describe, expect, test } from 'vitest';
import { type CompassDevice, DeviceCompass } from '../../../src/edges/device/compass.ts';

type Told = Parameters<CompassDevice['listen']>[1];
type HeadingEvent = Parameters<Told>[0];

/** A phone whose events a test sends, and whose answer to Safari's question is known. */
function phone(answer: 'granted' | 'denied' | 'none' | 'fails' = 'none', pageTurn = 0) {
  const hearing = new Set<Told>();
  let asked = 0;
  const device: CompassDevice = {
    hasSensor: true,
    requestPermission:
      answer === 'none'
        ? null
        : () => {
            asked += 1;
            return answer === 'fails'
              ? Promise.reject(new Error('not from a tap'))
              : Promise.resolve(answer);
          },
    listen(kind, told) {
      if (kind === 'deviceorientationabsolute') hearing.add(told);
      return () => hearing.delete(told);
    },
    pageTurn_deg: () => pageTurn,
  };
  const send = (event: Partial<HeadingEvent>): void => {
    const whole = { alpha: null, beta: null, gamma: null, absolute: false, ...event };
    for (const told of hearing) told(whole);
  };
  return { device, send, asked: () => asked, hearing };
}

describe('the compass of a phone', () => {
  test('turns an angle that counts against the clock into a bearing', () => {
    const { device, send } = phone();
    const read: number[] = [];
    new DeviceCompass(device).watch(({ magnetic_deg }) => read.push(magnetic_deg));
    send({ alpha: 0, absolute: true });
    send({ alpha: 270, absolute: true });
    expect(read).toEqual([0, 90]);
  });

  test('takes the heading that Safari gives, with how far off it may be', () => {
    const { device, send } = phone('granted');
    const read: unknown[] = [];
    new DeviceCompass(device).watch((reading) => read.push(reading));
    send({ alpha: 10, webkitCompassHeading: 123, webkitCompassAccuracy: 15 });
    send({ webkitCompassHeading: 124, webkitCompassAccuracy: -1 });
    expect(read).toEqual([
      { magnetic_deg: 123, accuracy_deg: 15 },
      { magnetic_deg: 124, accuracy_deg: null },
    ]);
  });

  test('allows for a page that is turned on its side', () => {
    const { device, send } = phone('none', 90);
    const read: number[] = [];
    new DeviceCompass(device).watch(({ magnetic_deg }) => read.push(magnetic_deg));
    send({ alpha: 0, absolute: true });
    expect(read).toEqual([90]);
  });

  test('says nothing where an event does not know where north is', () => {
    const { device, send } = phone();
    const read: unknown[] = [];
    new DeviceCompass(device).watch((reading) => read.push(reading));
    send({ alpha: 12, absolute: false });
    send({ alpha: null, absolute: true });
    expect(read).toEqual([]);
  });

  test('is heard no more once it was stopped', () => {
    const { device, hearing } = phone();
    const stop = new DeviceCompass(device).watch(() => undefined);
    expect(hearing.size).toBe(1);
    stop();
    expect(hearing.size).toBe(0);
  });
});

describe('leave to read it', () => {
  test('is given where the browser asks nothing, and none where there is no sensor', () => {
    expect(new DeviceCompass(phone().device).leave()).toBe('given');
    expect(new DeviceCompass({ ...phone().device, hasSensor: false }).leave()).toBe('none');
  });

  test.each([
    ['granted', 'given'],
    ['denied', 'refused'],
    ['fails', 'to be asked'],
  ] as const)('asked for once, where Safari answers %s, is %s', async (answer, leave) => {
    const { device, asked } = phone(answer);
    const compass = new DeviceCompass(device);
    expect(compass.leave()).toBe('to be asked');
    expect(asked()).toBe(0);
    expect(await compass.ask()).toBe(leave);
    expect(asked()).toBe(1);
    expect(compass.leave()).toBe(leave);
  });
});

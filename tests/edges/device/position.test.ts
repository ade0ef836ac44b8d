import { describe, expect, test } from 'vitest';
import { askPosition, knownPosition, positionLeave } from '../../../src/edges/device/position.ts';

/** A browser that stands at one place, with leave as given, and counts how often it was asked. */
function browserAt(state: PermissionState | 'silent') {
  let asked = 0;
  return {
    asked: () => asked,
    geolocation: {
      getCurrentPosition(found: PositionCallback) {
        asked += 1;
        const coords = { latitude: 27.1, longitude: -74.2 } as GeolocationCoordinates;
        found({ coords, timestamp: 0 } as GeolocationPosition);
      },
    },
    permissions: {
      query: () =>
        state === 'silent'
          ? Promise.reject(new TypeError('no such permission'))
          : Promise.resolve({ state } as PermissionStatus),
    },
  };
}

describe('where the device is', () => {
  test('is read where leave was given before', async () => {
    const browser = browserAt('granted');
    expect(await knownPosition(browser)).toEqual({ latitude_deg: 27.1, longitude_deg: -74.2 });
  });

  test.each(['prompt', 'denied', 'silent'] as const)(
    'is not asked for in the dark when leave is %s',
    async (state) => {
      const browser = browserAt(state);
      expect(await knownPosition(browser)).toBeNull();
      expect(browser.asked()).toBe(0);
    },
  );

  test('is asked for by daylight', async () => {
    const browser = browserAt('prompt');
    expect(await positionLeave(browser)).toBe('to be asked');
    expect(await askPosition(browser)).not.toBeNull();
  });

  test('is not known where the browser refuses or has no such thing', async () => {
    const refusing = {
      geolocation: {
        getCurrentPosition: (_: PositionCallback, refused?: PositionErrorCallback | null) => {
          refused?.({ code: 1 } as GeolocationPositionError);
        },
      },
      permissions: null,
    };
    expect(await askPosition(refusing)).toBeNull();
    expect(await askPosition({ geolocation: null, permissions: null })).toBeNull();
    expect(await positionLeave({ geolocation: null, permissions: null })).toBe('refused');
  });
});

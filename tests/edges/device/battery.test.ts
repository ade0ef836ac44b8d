import { expect, test } from 'vitest';
import { batteryLevel } from '../../../src/edges/device/battery.ts';
import { offlineState } from '../../../src/edges/device/offline.ts';

test('the battery is told where the browser tells it, and nothing fails where it does not', async () => {
  const getBattery = () => Promise.resolve({ level: 0.6, charging: false });
  expect(await batteryLevel({ getBattery })).toBe(0.6);
  expect(await batteryLevel({})).toBeNull();
  expect(await batteryLevel({ getBattery: () => Promise.reject(new Error('no')) })).toBeNull();
});

test('the app counts as here once its worker is active', async () => {
  const workers = (state: string | null) => ({
    getRegistration: () =>
      Promise.resolve(
        state === null ? undefined : ({ active: { state } } as ServiceWorkerRegistration),
      ),
  });
  expect(await offlineState(workers('activated'))).toBe('all here');
  expect(await offlineState(workers('installing'))).toBe('not yet');
  expect(await offlineState(workers(null))).toBe('not yet');
  expect(await offlineState(null)).toBe('not possible here');
});

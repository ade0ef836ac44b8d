import { expect, test } from 'vitest';
import { askToPersist, storageState } from '../../../src/edges/device/storage.ts';

const manager = (persisted: boolean): Parameters<typeof storageState>[0] => ({
  persisted: () => Promise.resolve(persisted),
  persist: () => Promise.resolve(persisted),
  estimate: () => Promise.resolve({ usage: 10, quota: 100 }),
});

test('a browser that promises to keep the data says so, and how much room there is', async () => {
  expect(await storageState(manager(true))).toEqual({
    persistence: 'persisted',
    used_bytes: 10,
    quota_bytes: 100,
  });
  expect(await askToPersist(manager(false))).toBe('may be cleared');
});

test('a browser that does not say, or refuses, leaves it not known', async () => {
  const refuse = (): Promise<never> => Promise.reject(new TypeError('refused'));
  const refusing = { persisted: refuse, persist: refuse, estimate: refuse };
  const nothing = { persistence: 'not known', used_bytes: null, quota_bytes: null };
  expect(await storageState(refusing)).toEqual(nothing);
  expect(await storageState(null)).toEqual(nothing);
  expect(await askToPersist(refusing)).toBe('not known');
});

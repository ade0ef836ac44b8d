import { describe, expect, test } from 'vitest';
import { type ReadyFacts, isReady, readyItems } from '../../../src/app/state/readiness.ts';

const best: ReadyFacts = {
  author: 'Ana',
  nests: 40,
  isInvented: false,
  offline: 'all here',
  storage: 'persisted',
  microphone: 'given',
  position: 'given',
  camera: 'given',
  battery: 0.8,
  waiting: 0,
};
const stateOf = (facts: Partial<ReadyFacts>, name: string): string | undefined =>
  readyItems({ ...best, ...facts }).find((item) => item.name === name)?.state;

describe('the list before dark', () => {
  test('ends in ready when nothing is missing', () => {
    const items = readyItems(best);
    expect(items.every(({ state }) => state === 'done')).toBe(true);
    expect(isReady(items)).toBe(true);
  });

  test.each([
    ['season', { isInvented: true }],
    ['season', { nests: 0 }],
    ['who', { author: null }],
    ['offline', { offline: 'not yet' }],
    ['battery', { battery: 0.2 }],
  ] as const)('is not ready while %s is not seen to', (name, facts) => {
    expect(stateOf(facts, name)).toBe('to do');
    expect(isReady(readyItems({ ...best, ...facts }))).toBe(false);
  });

  test.each([
    ['storage', { storage: 'may be cleared' }],
    ['microphone', { microphone: 'to be asked' }],
    ['position', { position: 'refused' }],
    ['camera', { camera: 'not known' }],
    ['battery', { battery: null }],
    ['hub', { waiting: 3 }],
  ] as const)('an evening can do without %s, and it is said', (name, facts) => {
    expect(stateOf(facts, name)).toBe('better');
    expect(isReady(readyItems({ ...best, ...facts }))).toBe(true);
  });

  test('says nothing of what the device does not have', () => {
    expect(stateOf({ camera: 'none' }, 'camera')).toBeUndefined();
    expect(stateOf({ waiting: null }, 'hub')).toBeUndefined();
  });
});

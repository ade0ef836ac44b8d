// @vitest-environment jsdom
import { afterEach, expect, test, vi } from 'vitest';
import { ChangeSignal } from '../../../src/edges/store/change-signal.ts';

afterEach(() => {
  vi.unstubAllGlobals();
});

/** What a browser does in the other tabs of a page when one of them keeps a text. */
function otherTabsHear(key: string): void {
  window.dispatchEvent(new StorageEvent('storage', { key }));
}

test('without BroadcastChannel, word goes by a key that other tabs hear of', () => {
  vi.stubGlobal('BroadcastChannel', undefined);
  const heard = vi.fn();
  const signal = new ChangeSignal('own', heard);
  signal.send();
  expect(localStorage.getItem('firstdark changed: own')).not.toBeNull();
  expect(heard).not.toHaveBeenCalled();
  otherTabsHear('firstdark changed: own');
  otherTabsHear('something else');
  expect(heard).toHaveBeenCalledTimes(1);
  signal.close();
  otherTabsHear('firstdark changed: own');
  expect(heard).toHaveBeenCalledTimes(1);
});

test('a page that is shown again looks for what it missed while it slept', () => {
  const heard = vi.fn();
  const signal = new ChangeSignal('own', heard);
  document.dispatchEvent(new Event('visibilitychange'));
  expect(heard).toHaveBeenCalledTimes(1);
  signal.close();
});

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { installOnDebian } from '../../scripts/debian.mjs';

const debian = 'PRETTY_NAME="Debian GNU/Linux 12 (bookworm)"\nNAME="Debian GNU/Linux"\nID=debian\n';
const likeDebian = 'NAME="Another"\nID=another\nID_LIKE="ubuntu debian"\n';
const other = 'NAME="Other"\nID=other\nHOME_URL="https://debian.example"\n';

let asked: string[][] = [];
const machine = (osRelease: string, isRoot = true, answers = [true, true]) => ({
  osRelease,
  isRoot,
  apt(args: readonly string[], longest_ms: number) {
    expect(longest_ms).toBeGreaterThan(0);
    asked.push([...args]);
    return answers[asked.length - 1] ?? false;
  },
});

beforeEach(() => {
  asked = [];
  vi.spyOn(console, 'log').mockImplementation(() => undefined);
});
afterEach(() => {
  vi.restoreAllMocks();
});

describe('packages of the system', () => {
  test.each([debian, likeDebian])('are installed on Debian and its kin as root', (osRelease) => {
    expect(installOnDebian(['firefox-esr', 'xvfb'], 'a trial', machine(osRelease))).toBe(true);
    expect(asked.map(([verb]) => verb)).toEqual(['update', 'install']);
    expect(asked[1]).toEqual(expect.arrayContaining(['-y', 'firefox-esr', 'xvfb']));
  });

  test('are left alone on another system, and where one is not root', () => {
    expect(installOnDebian(['xvfb'], 'a trial', machine(other))).toBe(false);
    expect(installOnDebian(['xvfb'], 'a trial', machine(debian, false))).toBe(false);
    expect(asked).toEqual([]);
  });

  test('are tried with the lists at hand when new ones cannot be had', () => {
    expect(installOnDebian(['xvfb'], 'a trial', machine(debian, true, [false, true]))).toBe(true);
  });

  test('are not said to be there when installing them failed', () => {
    expect(installOnDebian(['xvfb'], 'a trial', machine(debian, true, [true, false]))).toBe(false);
  });
});

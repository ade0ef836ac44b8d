import { render, screen, within } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { describe, expect, test, vi } from 'vitest';
import Defaults from '../../../src/app/screens/programme/Defaults.svelte';
import FinishedList from '../../../src/app/screens/programme/FinishedList.svelte';
import { scratchSeason } from '../note/scratch-season.ts';

const list = [
  {
    id: 'earlier 1',
    title: 'Tern Beach 2025',
    short: { name: null, years: { from: 2025, to: 2025 }, nests: 41, boils: 33, visits: 900 },
  },
];

describe('the list of finished seasons', () => {
  test('says what each holds and that the odds have learned from it', () => {
    render(FinishedList, { list, isDark: false, taught: 1, remove: () => Promise.resolve(null) });
    expect(screen.getByRole('listitem')).toHaveTextContent(
      /Tern Beach 2025\s*2025 · 41 nests · 33 boils · 900 notes/,
    );
    expect(screen.getByRole('status')).toHaveTextContent('have learned from 1 earlier season');
  });

  test('one is removed only after it was asked once more; a failure is said', async () => {
    const remove = vi.fn(() => Promise.resolve('The store is blocked.'));
    render(FinishedList, { list, isDark: false, taught: null, remove });
    screen.getByRole('button', { name: 'Remove Tern Beach 2025 …' }).click();
    flushSync();
    expect(remove).not.toHaveBeenCalled();
    screen.getByRole('button', { name: 'Remove it now' }).click();
    expect(remove).toHaveBeenCalledWith('earlier 1');
    expect(await screen.findByText('The store is blocked.')).toBeVisible();
  });

  test('at night there is nothing to remove', () => {
    render(FinishedList, { list, isDark: true, taught: 1, remove: () => Promise.resolve(null) });
    expect(screen.queryByRole('button')).toBeNull();
  });
});

describe('defaults', () => {
  const line = (name: RegExp): HTMLElement => {
    const found = screen.getByText(name, { selector: '.name' }).closest('li');
    if (found === null) throw new Error(`${String(name)} is not listed.`);
    return found;
  };

  async function set(name: RegExp, text: string): Promise<void> {
    const form = within(line(name));
    const field = form.getByRole<HTMLInputElement>('textbox');
    field.value = text;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    flushSync();
    form.getByRole('button', { name: 'Set' }).click();
    await Promise.resolve();
    flushSync();
  }

  test('have a label each, and a value of one’s own can be set and given up', async () => {
    const { season, context } = await scratchSeason({ dark: false });
    render(Defaults, { context });
    expect(line(/^Pairs of sitters/)).toHaveTextContent(/3\s*guess/);
    await set(/^Pairs of sitters/, '5');
    await vi.waitFor(() => {
      expect(season.record.programme.pairs).toBe(5);
    });
    flushSync();
    within(line(/^Pairs of sitters/))
      .getByRole('button', { name: 'Back to the default' })
      .click();
    await vi.waitFor(() => {
      expect(season.record.programme.pairs).toBeUndefined();
    });
  });

  test('a share is set in percents, and what is none is refused', async () => {
    const { season, context } = await scratchSeason({ dark: false });
    render(Defaults, { context });
    await set(/^Share of a clutch/, '140');
    expect(await screen.findByRole('alert')).toHaveTextContent('percents from 0 to 100');
    expect(season.record.programme.expected_success).toBeUndefined();
    await set(/^Share of a clutch/, '55');
    await vi.waitFor(() => {
      expect(season.record.programme.expected_success).toBeCloseTo(0.55, 12);
    });
  });
});

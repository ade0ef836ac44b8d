import { render, screen, within } from '@testing-library/svelte';
import { expect, test, vi } from 'vitest';
import RulesPanel from '../../../src/app/screens/roster/RulesPanel.svelte';
import type { RosterDesk } from '../../../src/app/state/roster-desk.svelte.ts';
import { rulesOf } from '../../../src/core/roster/roster-rules.ts';

test('how near the nests of one post lie is chosen in feet and kept in metres', () => {
  const setRules = vi.fn<RosterDesk['setRules']>(() => Promise.resolve());
  const desk = { setRules } as unknown as RosterDesk;
  render(RulesPanel, { props: { desk, rules: rulesOf({}), measures: 'feet' } });
  const near = within(
    // The panel is folded up.
    screen.getByRole('group', {
      name: 'Nests this near along the shore are one post',
      hidden: true,
    }),
  );
  expect(near.getByText('130 ft')).toHaveAttribute('aria-pressed', 'true');
  near.getByText('200 ft').click();
  expect(setRules).toHaveBeenCalledWith({ post_m: 60 });
});

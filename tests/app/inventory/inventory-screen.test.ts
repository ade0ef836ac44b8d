import { render, screen } from '@testing-library/svelte';
import { describe, expect, test } from 'vitest';
import Inventory from '../../../src/app/screens/inventory/Inventory.svelte';
import { NestDetails } from '../../../src/core/domain/nest.ts';
import { nestId, scratchSeason } from '../note/scratch-season.ts';
import { tap } from '../hands.ts';

const nest = NestDetails.parse({ lay_night: '2026-05-20', clutch: 108, species: null });

/** A season whose nests are due by their age, carried by somebody with a role. */
async function seasonOf(role: 'permit holder' | 'lead' | 'sitter', dark = false) {
  const made = await scratchSeason({ dark, nests: { 'W-014': nest } });
  await made.season.write({ kind: 'volunteer-enrolled', volunteer: 'Orla', details: { role } });
  return made;
}

type Made = Awaited<ReturnType<typeof seasonOf>>;
const show = (made: Made, at: string | null) =>
  render(Inventory, { props: { nest: at }, context: made.context });

describe('who may open an inventory', () => {
  test.each(['lead', 'sitter'] as const)('a %s may not, and is told who may', async (role) => {
    const { container } = show(await seasonOf(role), 'W-014');
    expect(container).toHaveTextContent('Only a permit holder opens a nest');
    expect(screen.queryByRole('button', { name: /Save/ })).toBeNull();
  });

  test('a permit holder sees what is due, with where the day comes from', async () => {
    const { container } = show(await seasonOf('permit holder'), null);
    expect(container).toHaveTextContent('Due now (1)');
    expect(container).toHaveTextContent('overdue since Wed 29 Jul, 3 days: 70 days after');
    expect(container).toHaveTextContent('70 days, guess');
  });
});

describe('counting a nest', () => {
  test('is kept with the eggs it was reckoned from, also on the dark screen without a keyboard', async () => {
    const made = await seasonOf('permit holder', true);
    const { container } = show(made, 'W-014');
    expect(container.querySelectorAll('input, select, textarea')).toHaveLength(0);
    for (let ten = 0; ten < 9; ten++) tap('Shells: ten more');
    tap('Unhatched eggs: ten more');
    tap('Pipped alive: none');
    tap('Save the inventory');
    await screen.findByText('Saved on this device: hatched 83.3 %, emerged 83.3 %.');
    const [inventory] = made.season.record.nests.get(nestId('W-014'))?.inventories ?? [];
    expect(inventory?.fact.details).toMatchObject({
      date: '2026-08-01',
      shells: 90,
      unhatched: 10,
      pipped_live: 0,
      pipped_dead: null,
      denominator: 'laid',
      clutch: 108,
    });
  });

  test('before its day is warned of', async () => {
    const made = await seasonOf('permit holder');
    await made.season.note(nestId('W-014'), { emergence: 'boil', emerged: 80 });
    const { container } = show(made, 'W-014');
    expect(container).toHaveTextContent('Its day has not come');
  });

  test('can be withdrawn, and the nest is due again', async () => {
    const made = await seasonOf('permit holder');
    const details = { date: '2026-08-01', shells: 90, unhatched: 10 };
    await made.season.write({
      kind: 'inventory-recorded',
      nest: nestId('W-014'),
      details: details as never,
    });
    const { container } = show(made, 'W-014');
    expect(container).toHaveTextContent('Hatched 90.0 %');
    tap('Withdraw this inventory');
    tap('Yes, withdraw it');
    await screen.findByRole('button', { name: 'Save the inventory' });
  });
});

import 'fake-indexeddb/auto';
import { describe, expect, test } from 'vitest';
import { BrowserReplicas, type Membership } from '../../../src/edges/store/browser-replicas.ts';

let count = 0;
const fresh = (): string => `replicas ${++count}`;

const membership: Membership = {
  address: 'https://hub.example/',
  key: 'fd1_secret',
  record: 'own',
  programme: { id: 'p', name: 'Anyshore' },
  person: 'Ana',
  device: 'a',
  role: 'sitter',
  teams: [],
};

describe('what a browser remembers of its exchanges', () => {
  test('is there after a restart, step by step', async () => {
    const name = fresh();
    const shelf = new BrowserReplicas(name).shelf('own');
    await shelf.keep({ sent: ['a', 'b'], refused: [{ id: 'c', reason: 'no', again: false }] });
    await shelf.keep({ cursor: 'x', atHub: ['a'], broughtBy: [['a', 'Ben']] });
    const again = await new BrowserReplicas(name).shelf('own').read();
    expect(again).toEqual(await shelf.read());
    expect(again).toEqual({
      cursor: 'x',
      atHub: new Set(['a']),
      sent: new Set(['b']),
      refused: new Map([['c', { id: 'c', reason: 'no', again: false }]]),
      broughtBy: new Map([['a', 'Ben']]),
    });
  });

  test('is put together now and then, and nothing of it is lost', async () => {
    const name = fresh();
    const shelf = new BrowserReplicas(name).shelf('own');
    for (let step = 0; step < 320; step++) await shelf.keep({ atHub: [`id ${step}`] });
    const again = await new BrowserReplicas(name).shelf('own').read();
    expect(again.atHub.size).toBe(320);
  });

  test('is forgotten for one record and stays for another', async () => {
    const replicas = new BrowserReplicas(fresh());
    await replicas.shelf('own').keep({ atHub: ['a'] });
    await replicas.shelf('own 2').keep({ atHub: ['b'] });
    await replicas.shelf('own').forget();
    expect((await replicas.shelf('own').read()).atHub.size).toBe(0);
    expect((await replicas.shelf('own 2').read()).atHub).toEqual(new Set(['b']));
  });

  test('the key goes when the device leaves', async () => {
    const replicas = new BrowserReplicas(fresh());
    expect(await replicas.membership('own')).toBeNull();
    await replicas.join(membership);
    expect(await replicas.membership('own')).toEqual(membership);
    await replicas.leave('own');
    expect(await replicas.membership('own')).toBeNull();
  });
});

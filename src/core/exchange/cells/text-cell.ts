import type { Cell } from './cell.ts';

/** Free text, kept as it is. */
export const freeText: Cell = {
  expected: 'text',
  keepsSpace: true,
  read: (text) => ({ ok: true, value: text }),
};

/** A name or an id: spaces around it do not count. */
export const nameText: Cell = {
  expected: 'a name',
  read: (text) => ({ ok: true, value: text }),
};

/** Names separated by semicolons; none at all means any. */
export const nameList: Cell = {
  expected: 'names separated by ;',
  read: (text) => {
    const names = text.split(';').map((name) => name.trim());
    const given = names.filter((name) => name !== '');
    return { ok: true, value: given.length === 0 ? null : given };
  },
};

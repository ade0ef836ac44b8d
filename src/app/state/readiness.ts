/** What can be found out about whether this device is ready for the beach. */
export interface ReadyFacts {
  readonly author: string | null;
  /** Nests of the season that is open. */
  readonly nests: number;
  readonly isInvented: boolean;
  readonly offline: 'all here' | 'not yet' | 'not possible here';
  readonly storage: 'persisted' | 'may be cleared' | 'not known';
  readonly microphone: Leave;
  readonly position: Leave;
  readonly camera: Leave;
  /** 0 to 1; null where the browser does not say. */
  readonly battery: number | null;
  /** Entries that the hub has yet to get; null when the record is on this device only. */
  readonly waiting: number | null;
}

type Leave = 'given' | 'to be asked' | 'refused' | 'not known' | 'none';

/** `done`; `to do`, without which the night goes wrong; `better`, which can be done without. */
export type ReadyState = 'done' | 'to do' | 'better';

export interface ReadyItem {
  readonly name: ReadyName;
  readonly title: string;
  readonly state: ReadyState;
  /** How it stands, and what to do about it. */
  readonly told: string;
}

export type ReadyName =
  | 'season'
  | 'who'
  | 'offline'
  | 'storage'
  | 'hub'
  | 'microphone'
  | 'position'
  | 'camera'
  | 'battery';

/** An evening's sit takes about this much of a battery, with the screen dark (guess). */
const leastBattery = 0.5;

/** The list to go through before dark, in the order in which it is best done. */
export function readyItems(facts: ReadyFacts): readonly ReadyItem[] {
  return [
    season(facts),
    who(facts),
    offline(facts),
    storage(facts),
    ...hub(facts),
    ...leaves(facts),
    battery(facts),
  ];
}

/** Whether nothing is left that the night needs. */
export function isReady(items: readonly ReadyItem[]): boolean {
  return items.every(({ state }) => state !== 'to do');
}

function season({ nests, isInvented }: ReadyFacts): ReadyItem {
  const item = { name: 'season', title: 'The season' } as const;
  if (isInvented) return { ...item, state: 'to do', told: 'The invented season is open.' };
  if (nests === 0) return { ...item, state: 'to do', told: 'There are no nests in it yet.' };
  return { ...item, state: 'done', told: `${nests} nests are on this device.` };
}

function who({ author }: ReadyFacts): ReadyItem {
  const item = { name: 'who', title: 'Who you are' } as const;
  return author === null
    ? { ...item, state: 'to do', told: 'No name is chosen: it stands beside every note.' }
    : { ...item, state: 'done', told: `Notes are made as ${author}.` };
}

function offline({ offline: state }: ReadyFacts): ReadyItem {
  const item = { name: 'offline', title: 'Without reception' } as const;
  switch (state) {
    case 'all here':
      return { ...item, state: 'done', told: 'All of Firstdark is on this device.' };
    case 'not yet':
      return { ...item, state: 'to do', told: 'It is still being fetched: stay in reception.' };
    case 'not possible here':
      return {
        ...item,
        state: 'to do',
        told: 'This browser or address keeps no app for later. Open it by https, in an ordinary window.',
      };
  }
}

function storage({ storage: state }: ReadyFacts): ReadyItem {
  const item = { name: 'storage', title: 'The record' } as const;
  switch (state) {
    case 'persisted':
      return { ...item, state: 'done', told: 'The browser keeps it until you erase it.' };
    case 'may be cleared':
      return {
        ...item,
        state: 'better',
        told: 'The browser may clear it when the device runs out of room.',
      };
    case 'not known':
      return { ...item, state: 'better', told: 'The browser does not say whether it keeps it.' };
  }
}

function hub({ waiting }: ReadyFacts): readonly ReadyItem[] {
  if (waiting === null) return [];
  const item = { name: 'hub', title: 'The hub' } as const;
  return waiting === 0
    ? [{ ...item, state: 'done', told: 'Nothing of this device is waiting.' }]
    : [{ ...item, state: 'better', told: `${waiting} entries of this device have yet to go out.` }];
}

/** Their questions are white: what is not asked by daylight cannot be used at night. */
function leaves({ microphone, position, camera }: ReadyFacts): readonly ReadyItem[] {
  const uses = [
    ['microphone', 'Microphone', microphone, 'for the meter beside a nest'],
    ['position', 'Where you are', position, 'to find the nearest nest'],
    ['camera', 'Camera', camera, 'to take over notes from another phone'],
  ] as const;
  return uses.flatMap(([name, title, leave, what]): readonly ReadyItem[] => {
    switch (leave) {
      case 'given':
        return [{ name, title, state: 'done', told: `Allowed, ${what}.` }];
      case 'refused':
        return [
          {
            name,
            title,
            state: 'better',
            told: `Refused: allow it in the browser’s settings if it is wanted, ${what}.`,
          },
        ];
      case 'to be asked':
      case 'not known':
        return [
          {
            name,
            title,
            state: 'better',
            told: `Not allowed yet, ${what}. The question is white: not after dark.`,
          },
        ];
      case 'none':
        return [];
    }
  });
}

function battery({ battery: level }: ReadyFacts): ReadyItem {
  const item = { name: 'battery', title: 'Battery' } as const;
  if (level === null)
    return { ...item, state: 'better', told: 'Look yourself: half full at least.' };
  const told = `${Math.round(level * 100)} % full.`;
  return level >= leastBattery
    ? { ...item, state: 'done', told }
    : { ...item, state: 'to do', told: `${told} Charge it, or take a power bank.` };
}

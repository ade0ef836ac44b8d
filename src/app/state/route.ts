/** The parts of the programme's screen. */
export const programmeParts = [
  'overview',
  'people',
  'import',
  'backup',
  'devices',
  'finished',
  'defaults',
  'cautions',
] as const;
export type ProgrammePart = (typeof programmeParts)[number];

/** The parts of the roster's screen. */
const rosterParts = ['plan', 'mine', 'people', 'crews'] as const;
export type RosterPart = (typeof rosterParts)[number];

/** Where in the app somebody is. A new screen adds its line here, in `readRoute` and `hashOf`. */
export type Route =
  | { readonly screen: 'welcome' }
  /** `invitation` is what a lead's link holds: a secret that is used once. */
  | { readonly screen: 'join'; readonly invitation: string }
  | { readonly screen: 'tonight' }
  /** `nest` null: the nest is still to be chosen. */
  | { readonly screen: 'note'; readonly nest: string | null }
  /** `nest` null: the nest is still to be chosen. */
  | { readonly screen: 'listen'; readonly nest: string | null }
  /** `part` is the nest screen's own to read, such as `record` or `correct/EVENT`. */
  | { readonly screen: 'nest'; readonly nest: string; readonly part: string }
  /** `nest` null: the nest is still to be chosen. */
  | { readonly screen: 'boil'; readonly nest: string | null }
  /** `part` is the orientation screen's own to read: empty, or `report/EVENT`. */
  | { readonly screen: 'orientation'; readonly nest: string | null; readonly part: string }
  /** `nest` null: what is due. */
  | { readonly screen: 'inventory'; readonly nest: string | null }
  | { readonly screen: 'roster'; readonly part: RosterPart }
  | { readonly screen: 'register' }
  /** What is seen to before dark. */
  | { readonly screen: 'ready' }
  | { readonly screen: 'help' }
  | { readonly screen: 'season' }
  | { readonly screen: 'programme'; readonly part: ProgrammePart };

/** The place an address names; an address that names none is Tonight. */
export function readRoute(hash: string): Route {
  const [screen, first, ...rest] = hash.replace(/^#\/?/, '').split('/').map(decode);
  switch (screen) {
    case 'welcome':
      return { screen };
    case 'join':
      return { screen, invitation: first ?? '' };
    case 'note':
      return { screen, nest: first ?? null };
    case 'nest':
      if (first === undefined || first === '') return { screen: 'tonight' };
      return { screen, nest: first, part: rest.join('/') };
    case 'listen':
    case 'boil':
    case 'inventory':
      return { screen, nest: nestIn(first) };
    case 'orientation':
      return { screen, nest: nestIn(first), part: rest.join('/') };
    case 'roster':
      return { screen, part: rosterParts.find((name) => name === first) ?? 'plan' };
    case 'register':
    case 'season':
    case 'ready':
    case 'help':
      return { screen };
    case 'programme': {
      const part = programmeParts.find((name) => name === first) ?? 'overview';
      return { screen, part };
    }
    default:
      return { screen: 'tonight' };
  }
}

/** The address of a place, for links: `#/nest/W-014`. */
export function hashOf(route: Route): string {
  switch (route.screen) {
    case 'welcome':
    case 'tonight':
    case 'register':
    case 'season':
    case 'ready':
    case 'help':
      return `#/${route.screen}`;
    case 'join':
      return `#/join/${encodeURIComponent(route.invitation)}`;
    case 'note':
      return route.nest === null ? '#/note' : `#/note/${encodeURIComponent(route.nest)}`;
    case 'nest': {
      const part = route.part === '' ? '' : `/${route.part}`;
      return `#/nest/${encodeURIComponent(route.nest)}${part}`;
    }
    case 'listen':
    case 'boil':
    case 'inventory':
      return `#/${route.screen}${nestPart(route.nest)}`;
    case 'orientation': {
      const part = route.nest === null || route.part === '' ? '' : `/${route.part}`;
      return `#/orientation${nestPart(route.nest)}${part}`;
    }
    case 'roster':
      return route.part === 'plan' ? '#/roster' : `#/roster/${route.part}`;
    case 'programme':
      return route.part === 'overview' ? '#/programme' : `#/programme/${route.part}`;
  }
}

function nestIn(text: string | undefined): string | null {
  return text === undefined || text === '' ? null : text;
}

function nestPart(nest: string | null): string {
  return nest === null ? '' : `/${encodeURIComponent(nest)}`;
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

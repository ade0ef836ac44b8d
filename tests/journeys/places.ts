/** The places in the app that need no nest to be named: every screen and its parts. */
export const places = [
  '#/welcome',
  '#/tonight',
  '#/note',
  '#/listen',
  '#/boil',
  '#/orientation',
  '#/orientation/report',
  '#/inventory',
  '#/register',
  '#/roster',
  '#/roster/mine',
  '#/roster/people',
  '#/roster/crews',
  '#/season',
  '#/ready',
  '#/help',
  '#/programme',
  '#/programme/people',
  '#/programme/import',
  '#/programme/backup',
  '#/programme/devices',
  '#/programme/finished',
  '#/programme/defaults',
  '#/programme/cautions',
] as const;

/** Those of one nest; `NEST` stands for its name. */
export const placesOfNest = [
  '#/note/NEST',
  '#/listen/NEST',
  '#/nest/NEST',
  '#/nest/NEST/record',
  '#/boil/NEST',
  '#/orientation/NEST',
  '#/inventory/NEST',
] as const;

/** Places that lead nowhere, and what is said there. */
export const placesNowhere = ['#/nest/NONE-1', '#/boil/NONE-1', '#/join/no-invitation'] as const;

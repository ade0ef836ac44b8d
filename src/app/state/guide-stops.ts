import type { Route } from './route.ts';

/** One thing that is shown. */
export interface GuideStop {
  readonly title: string;
  /** What is to be seen, and what to try, in a sentence or two. */
  readonly says: string;
  /** Where it is to be seen; `nest` is the likeliest one of the evening, null when there is none. */
  readonly route: (nest: string | null) => Route;
  /** The element of that screen that is meant, by its id; without one, its top. */
  readonly element?: string;
}

const tonight = (): Route => ({ screen: 'tonight' });

/** The way through the invented season, from an evening on the beach to the end of the season. */
export const guideStops: readonly GuideStop[] = [
  {
    title: 'The nests in order',
    says: 'Every nest that can still come up, the likeliest tonight first. The bar and the number say the same. Tap Why at one of them: each line is a reason, with the factor by which it moved the odds.',
    route: tonight,
  },
  {
    title: 'The beach to scale',
    says: 'Tonight’s nests where they lie along the shore, and the walks that would pay: a look there now is likely to change where people should sit. Sunset, darkness and moon stand at the top.',
    route: tonight,
    element: 'beach',
  },
  {
    title: 'One nest',
    says: 'The chance of each night as bars, and below them, on the same nights, what was seen and heard. What moved tonight’s chance stands under it.',
    route: (nest) => (nest === null ? tonight() : { screen: 'nest', nest, part: '' }),
  },
  {
    title: 'A note in three taps',
    says: 'Try it: how the sand looks, what is heard, done. It is on the device at once, without reception. It can be undone for a minute, and corrected later.',
    route: (nest) => ({ screen: 'note', nest }),
  },
  {
    title: 'The odds have moved',
    says: 'Back at the list: what you noted has moved the nest, and its neighbours a little as well, for one beach shares one season.',
    route: tonight,
  },
  {
    title: 'When they come up',
    says: 'A large area to tap, once for each hatchling; the first one sets the time. Those who go astray are counted apart, with the light they went to.',
    route: (nest) => ({ screen: 'boil', nest }),
  },
  {
    title: 'Who sits where',
    says: 'For a lead: the best places for the people who are free, tonight and on the coming nights. Put somebody elsewhere with a tap, and the plan is made around it.',
    route: () => ({ screen: 'roster', part: 'plan' }),
  },
  {
    title: 'How good the odds were',
    says: 'The season told: what came up, what was met, what was lost, and whether a chance of three in ten came true three times in ten. What the numbers are worth is to be seen here.',
    route: () => ({ screen: 'season' }),
  },
  {
    title: 'Your own beach',
    says: 'Bring your tables, as they are: the columns are matched with you, and nothing is lost. Before an evening: “Get ready before dark”, on the Programme screen.',
    route: () => ({ screen: 'programme', part: 'overview' }),
  },
];

import type { Orientation } from '../../../core/orientation/orientation-of.ts';
import type { Aim, AstrayFate, Cloud } from './orientation-desk.svelte.ts';
import { fixedText } from '../../../core/domain/locale.ts';

export const aimWords: Readonly<Record<Aim, { label: string; take: string; back: string }>> = {
  track: { label: 'A track', take: 'Add this track', back: 'Last track off' },
  leftmost: { label: 'Leftmost', take: 'This is the leftmost', back: 'Leftmost off' },
  rightmost: { label: 'Rightmost', take: 'This is the rightmost', back: 'Rightmost off' },
  main: { label: 'Main way', take: 'Most went this way', back: 'Main way off' },
  seaward: { label: 'The sea', take: 'The sea is there', back: 'Line of the zone' },
  lamp: { label: 'A lamp', take: 'Add this lamp', back: 'Last lamp off' },
};

export const fateWords: Readonly<Record<AstrayFate, { question: string; none: string }>> = {
  reached_sea: { question: 'Of those astray: reached the sea', none: 'none did' },
  found_dead: { question: 'Found dead', none: 'none was' },
  found_alive: { question: 'Found alive by the permit holder', none: 'none was' },
  fate_unknown: { question: 'Not known what became of', none: /* @wc-include */ 'none' },
};

export const cloudWord: Readonly<Record<Cloud, string>> = {
  clear: /* @wc-context: sky */ /* @wc-include */ 'clear',
  broken: /* @wc-context: sky */ /* @wc-include */ 'broken',
  overcast: /* @wc-context: sky */ /* @wc-include */ 'overcast',
};

/** The cloud of a record: one that was tapped as a word, one that came from a file as it stands. */
export function cloudText(cloud: string | null | undefined): string | null {
  return Object.entries(cloudWord).find(([value]) => value === cloud)?.[1] ?? cloud ?? null;
}

/** `12° left of the line to the sea`. */
export function offsetWords({ offset }: Orientation): string | null {
  if (offset === null) return null;
  const degrees = Math.round(offset.offset_deg);
  if (degrees === 0) return 'straight along the line to the sea';
  if (offset.side === 'neither') return 'straight away from the sea';
  return `${degrees}° ${offset.side} of the line to the sea`;
}

/** What a drawing of the fan shows, in a sentence or two. */
export function drawingWords(figures: Orientation): string {
  const { n, fan, main } = figures;
  const tracks = n === 0 ? 'No single track' : n === 1 ? '1 track' : `${n} tracks`;
  const width = fan === null ? null : `a fan ${Math.round(fan.width_deg)}° wide`;
  const way =
    main === null ? null : `main way ${offsetWords(figures) ?? bearingText(main.bearing_deg)}`;
  return `${[tracks, width, way].filter((part) => part !== null).join(', ')}.`;
}

/** `007°`. */
export function bearingText(bearing_deg: number): string {
  return `${String(Math.round(bearing_deg) % 360).padStart(3, '0')}°`;
}

/** One figure with its name, for a list; `why` explains it in few words. */
export interface Figure {
  readonly name: string;
  readonly value: string;
}

/** The figures that can be given of a record, in the order in which one would ask. */
export function figureList(figures: Orientation): readonly Figure[] {
  const { n, mean, fan, main, rayleigh, confidence } = figures;
  const list: Figure[] = [];
  const offset = offsetWords(figures);
  if (main !== null) {
    const value = `${bearingText(main.bearing_deg)}${offset === null ? '' : `, ${offset}`}`;
    list.push({ name: `Main way (${main.from})`, value });
  }
  if (fan !== null) {
    const value = `${Math.round(fan.width_deg)}°, from ${bearingText(fan.left_deg)} to ${bearingText(fan.right_deg)}`;
    list.push({ name: 'Fan', value });
  }
  if (n > 0) list.push({ name: 'Tracks measured', value: String(n) });
  if (mean !== null && mean.mean_deg !== null && n > 1) {
    const half =
      confidence?.kind === 'within' ? ` ± ${Math.round(confidence.half_deg)}° (95 %)` : '';
    list.push({ name: 'Mean of the tracks', value: `${bearingText(mean.mean_deg)}${half}` });
    list.push({ name: 'How much they agree', value: `r = ${fixedText(mean.r, 2)} of 1` });
    list.push({ name: 'Deviation', value: `${Math.round(mean.deviation_deg)}°` });
  }
  if (rayleigh !== null) {
    const p = rayleigh.p < 0.001 ? 'p < 0.001' : `p = ${fixedText(rayleigh.p, 3)}`;
    const words = rayleigh.p < 0.05 ? 'they share a direction' : 'no shared direction shown';
    list.push({ name: 'Rayleigh’s test', value: `${p}: ${words}` });
  }
  return list;
}

import type { NestForecast } from '../../../core/forecast/forecast.ts';
import type { Programme } from '../../../core/domain/programme.ts';
import { type Measures, foot_m, mile_m } from '../../../core/domain/measures.ts';
import { alongShore_m } from '../../../core/domain/along-shore.ts';
import { chanceText } from '../note/chance-text.ts';
import { type ChanceClass, chanceClass } from './chance-words.ts';

/** One nest on the drawing. `lane` null: no room for its label. */
export interface Mark {
  readonly forecast: NestForecast;
  readonly along_m: number;
  readonly chance: ChanceClass;
  readonly label: string;
  readonly labelAt_m: number;
  readonly lane: number | null;
}

/** One zone of the beach, from its origin; everything in metres along the shore. */
export interface Stretch {
  readonly zone: string;
  readonly from_m: number;
  readonly length_m: number;
  readonly marks: readonly Mark[];
  /** Lanes of labels that are used. */
  readonly lanes: number;
  /** Nests of the zone that nothing places. */
  readonly unplaced: number;
}

export interface LabelRoom {
  /** Width of a character and of the gap between labels, and of the whole drawing, in pixels. */
  readonly char_px: number;
  readonly width_px: number;
  readonly lanes: number;
}

/** Zones in the programme's order, then those that only nests name. */
export function layOutBeach(
  nests: readonly NestForecast[],
  programme: Programme,
  room: LabelRoom,
): readonly Stretch[] {
  const byZone = new Map<string, NestForecast[]>();
  for (const { zone } of programme.zones ?? []) byZone.set(zone, []);
  for (const nest of nests) {
    const zone = nest.record.nest.zone ?? '';
    const held = byZone.get(zone);
    if (held === undefined) byZone.set(zone, [nest]);
    else held.push(nest);
  }
  const bare = [...byZone].map(([zone, list]) => {
    const told_m = programme.zones?.find((entry) => entry.zone === zone)?.length_m;
    const along = alongShore_m(list.map((nest) => nest.record.nest));
    const from_m = Math.min(0, ...along.values());
    return {
      zone,
      list,
      along,
      from_m,
      length_m: Math.max(told_m ?? 0, ...along.values()) - from_m,
    };
  });
  const longest_m = Math.max(1, ...bare.map((stretch) => stretch.length_m));
  const metre_px = room.width_px / longest_m;
  return bare
    .filter(({ list, length_m }) => list.length > 0 || length_m > 0)
    .map(({ zone, list, along, from_m, length_m }) => {
      const marks = label(list, along, from_m, longest_m, metre_px, room);
      return {
        zone,
        from_m,
        length_m,
        marks,
        lanes: Math.max(0, ...marks.map(({ lane }) => (lane === null ? 0 : lane + 1))),
        unplaced: list.length - marks.length,
      };
    });
}

/** A name as far as it fits beside the drawing; a drawn text of pages holds WebKit up for seconds. */
export function fitting(name: string, { char_px, width_px }: LabelRoom): string {
  const most = Math.max(1, Math.floor(width_px / char_px));
  const letters = Array.from(name.slice(0, 4 * most));
  return letters.length <= most ? name : `${letters.slice(0, most - 1).join('')}…`;
}

/** Labels for the likeliest nests first, each in the lowest lane where it hits no other. */
function label(
  nests: readonly NestForecast[],
  along: ReadonlyMap<string, number>,
  from_m: number,
  longest_m: number,
  metre_px: number,
  room: LabelRoom,
): Mark[] {
  const taken: { lane: number; from_m: number; to_m: number }[] = [];
  return [...nests]
    .sort((a, b) => b.pTonight - a.pTonight)
    .flatMap((forecast) => {
      const along_m = along.get(forecast.record.nest.id);
      if (along_m === undefined) return [];
      const chance = chanceClass(forecast.pTonight);
      const text = `${forecast.record.nest.id} ${chanceText(forecast.pTonight)}`;
      const width_m = ((text.length + 1) * room.char_px) / metre_px;
      const start_m = Math.max(
        from_m,
        Math.min(along_m - width_m / 2, from_m + longest_m - width_m),
      );
      let lane: number | null = null;
      for (let row = 0; row < room.lanes && lane === null && chance !== 'low'; row++) {
        const hit = taken.some(
          (other) => other.lane === row && start_m < other.to_m && other.from_m < start_m + width_m,
        );
        if (!hit) lane = row;
      }
      if (lane !== null) taken.push({ lane, from_m: start_m, to_m: start_m + width_m });
      return [{ forecast, along_m, chance, label: text, labelAt_m: start_m, lane }];
    });
}

/**
 * Metres of a scale bar that takes about a quarter of the drawing; its length is round in the
 * measures chosen: metres, or feet, or miles from one mile on.
 */
export function scaleBar_m(longest_m: number, measures: Measures): number {
  const wanted_m = longest_m / 4;
  const unit_m = measures === 'metric' ? 1 : wanted_m < mile_m ? foot_m : mile_m;
  const wanted = wanted_m / unit_m;
  const power = 10 ** Math.floor(Math.log10(Math.max(1, wanted)));
  const step = [5, 2, 1].find((factor) => factor * power <= wanted) ?? 1;
  return step * power * unit_m;
}

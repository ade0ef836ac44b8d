import { type Lamp, lampText, lampRemark } from '../../../core/domain/lamp.ts';
import type { NestId } from '../../../core/domain/nest.ts';
import { type Night, formatNight } from '../../../core/domain/night.ts';
import type { OrientationDetails } from '../../../core/domain/orientation.ts';
import { turn_deg } from '../../../core/numerics/angle.ts';
import type { SeasonState } from '../../state/season-state.svelte.ts';

/** What the dial's pointer is taken as. */
export const aims = ['track', 'leftmost', 'rightmost', 'main', 'seaward', 'lamp'] as const;
export type Aim = (typeof aims)[number];

/** What became of the hatchlings that went astray, under the names of the record. */
export const astrayFates = ['reached_sea', 'found_dead', 'found_alive', 'fate_unknown'] as const;
export type AstrayFate = (typeof astrayFates)[number];

export const clouds = ['clear', 'broken', 'overcast'] as const;
export type Cloud = (typeof clouds)[number];

/** A record of which way hatchlings went while it is being made; null is "not said". */
export interface OrientationDraft {
  readonly night: Night;
  readonly seaward_deg: number | null;
  readonly tracks_deg: readonly number[];
  readonly leftmost_deg: number | null;
  readonly rightmost_deg: number | null;
  readonly main_deg: number | null;
  readonly counted: number | null;
  readonly astray: number | null;
  readonly fates: Readonly<Record<AstrayFate, number | null>>;
  readonly lamps: readonly Lamp[];
  readonly cloud: Cloud | null;
  readonly note: string;
}

/**
 * The record that is being made at a nest, with the pointer of its dial. It outlives the screen while
 * the season is open.
 */
export class OrientationDesk {
  readonly nest: NestId;
  readonly #season: SeasonState;
  readonly #zoneSeaward_deg: number | null;
  #draft: OrientationDraft;
  #pointer_deg = $state.raw<number | null>(null);
  #aim = $state.raw<Aim>('track');
  #trouble = $state.raw<string | null>(null);

  constructor(season: SeasonState, nest: NestId, night: Night, zoneSeaward_deg: number | null) {
    this.#season = season;
    this.nest = nest;
    this.#zoneSeaward_deg = zoneSeaward_deg;
    this.#draft = $state.raw(blank(night, zoneSeaward_deg));
    if (zoneSeaward_deg === null) this.#aim = 'seaward';
  }

  get draft(): OrientationDraft {
    return this.#draft;
  }

  get pointer_deg(): number | null {
    return this.#pointer_deg;
  }

  get aim(): Aim {
    return this.#aim;
  }

  /** Why the last saving did not hold; null when it did. */
  get trouble(): string | null {
    return this.#trouble;
  }

  get isWorthSaving(): boolean {
    const { tracks_deg, leftmost_deg, main_deg, counted, astray, lamps } = this.#draft;
    const isBlank = leftmost_deg === null && main_deg === null && counted === null;
    return !isBlank || astray !== null || tracks_deg.length > 0 || lamps.length > 0;
  }

  change(changes: Partial<OrientationDraft>): void {
    this.#draft = { ...this.#draft, ...changes };
  }

  setFate(fate: AstrayFate, count: number | null): void {
    this.change({ fates: { ...this.#draft.fates, [fate]: count } });
  }

  aimAt(aim: Aim): void {
    this.#aim = aim;
  }

  point(bearing_deg: number | null): void {
    this.#pointer_deg = bearing_deg;
  }

  /** Turns the pointer by some degrees. */
  turn(by_deg: number): void {
    if (this.#pointer_deg === null) return;
    this.#pointer_deg = turn_deg(this.#pointer_deg + by_deg);
  }

  /** Takes the pointer's bearing as what it is aimed at; a lamp is added with its kind and colour. */
  takeBearing(lamp: Pick<Lamp, 'kind' | 'colour' | 'place'>): void {
    const bearing_deg = this.#pointer_deg;
    if (bearing_deg === null) return;
    const { tracks_deg, lamps } = this.#draft;
    switch (this.#aim) {
      case 'track':
        this.change({ tracks_deg: [...tracks_deg, bearing_deg] });
        break;
      case 'leftmost':
        this.change({ leftmost_deg: bearing_deg });
        break;
      case 'rightmost':
        this.change({ rightmost_deg: bearing_deg });
        break;
      case 'main':
        this.change({ main_deg: bearing_deg });
        break;
      case 'seaward':
        this.change({ seaward_deg: bearing_deg });
        this.#aim = 'track';
        break;
      case 'lamp':
        this.change({ lamps: [...lamps, { ...lamp, bearing_deg }] });
        break;
    }
    this.#pointer_deg = null;
  }

  /** Takes back what the chosen aim was given last. */
  takeBack(): void {
    const { tracks_deg, lamps } = this.#draft;
    switch (this.#aim) {
      case 'track':
        this.change({ tracks_deg: tracks_deg.slice(0, -1) });
        break;
      case 'leftmost':
        this.change({ leftmost_deg: null });
        break;
      case 'rightmost':
        this.change({ rightmost_deg: null });
        break;
      case 'main':
        this.change({ main_deg: null });
        break;
      case 'seaward':
        this.change({ seaward_deg: this.#zoneSeaward_deg });
        break;
      case 'lamp':
        this.change({ lamps: lamps.slice(0, -1) });
        break;
    }
  }

  /** What the draft says, as it goes on record. */
  details(zone: string | null, moon: string | null): OrientationDetails {
    const { fates, tracks_deg, lamps, note, ...draft } = this.#draft;
    return {
      night: formatNight(draft.night),
      zone,
      seaward_deg: draft.seaward_deg,
      tracks_counted: draft.counted ?? (tracks_deg.length === 0 ? null : tracks_deg.length),
      disoriented: draft.astray,
      track_bearings: tracks_deg.length === 0 ? null : [...tracks_deg],
      leftmost_deg: draft.leftmost_deg,
      rightmost_deg: draft.rightmost_deg,
      modal_deg: draft.main_deg,
      light_source: lamps.length === 0 ? null : lamps.map(lampRemark).join(', '),
      lamps: lamps.length === 0 ? null : lamps.map(lampText),
      moon,
      cloud: draft.cloud,
      note: note.trim() === '' ? null : note.trim(),
      ...fates,
    };
  }

  /** Puts the record on the device and makes room for the next; gives its id when it is there. */
  async save(zone: string | null, moon: string | null): Promise<string | null> {
    const details = this.details(zone, moon);
    const written = await this.#season.write({
      kind: 'orientation-recorded',
      nest: this.nest,
      details,
    });
    this.#trouble = written.ok ? null : written.problem.message;
    if (!written.ok) return null;
    this.#draft = blank(this.#draft.night, this.#zoneSeaward_deg);
    this.#pointer_deg = null;
    this.#aim = this.#zoneSeaward_deg === null ? 'seaward' : 'track';
    return written.id;
  }
}

function blank(night: Night, seaward_deg: number | null): OrientationDraft {
  return {
    night,
    seaward_deg,
    tracks_deg: [],
    leftmost_deg: null,
    rightmost_deg: null,
    main_deg: null,
    counted: null,
    astray: null,
    fates: { reached_sea: null, found_dead: null, found_alive: null, fate_unknown: null },
    lamps: [],
    cloud: null,
    note: '',
  };
}

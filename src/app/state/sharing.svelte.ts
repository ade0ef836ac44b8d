import { backoff_ms } from '../../core/replication/backoff.ts';
import { type Exchanged, type Progress, exchange } from '../../core/replication/exchange.ts';
import type { HubProblem, Refusal } from '../../core/replication/hub.ts';
import { nothingExchanged } from '../../core/replication/replica-shelf.ts';
import type { DeviceSettings } from './device-settings.svelte.ts';
import type { SeasonState } from './season-state.svelte.ts';
import type { Joined, Member, Place, SharingTools } from './sharing-tools.ts';

/** How far the record of this device and that of the hub are apart. */
export type Reach =
  /** The record is on this device only. */
  | { readonly state: 'alone' }
  | { readonly state: 'catching up'; readonly progress: Progress | null }
  | { readonly state: 'up to date'; readonly at_ms: number }
  /** The hub cannot be reached; tried again by itself at `next_ms`. */
  | { readonly state: 'waiting'; readonly problem: HubProblem; readonly next_ms: number }
  /** The hub does not let this device in any more. */
  | { readonly state: 'shut out'; readonly message: string };

/** A note is sent this long after it was made, so that several made at once go together. */
const gather_ms = 400;
/** Tried again this soon when another tab of this device is at it. */
const otherTab_ms = 1_000;
/** Asked this often while the page is seen, in case the line for news has died unnoticed. */
const round_ms = 5 * 60_000;

/**
 * Keeps the open season and its hub the same: sends what is new here, takes in what is new there,
 * tries again after ever longer waits, and says how it stands.
 */
export class Sharing {
  readonly #tools: SharingTools;
  readonly #settings: DeviceSettings;
  #season: SeasonState | null = null;
  #place = $state.raw<Place | null>(null);
  #reach = $state.raw<Reach>({ state: 'alone' });
  #waiting = $state.raw(0);
  #refused = $state.raw<readonly Refusal[]>([]);
  #broughtBy = $state.raw<ReadonlyMap<string, string>>(nothingExchanged.broughtBy);
  #clockGap_ms = $state.raw<number | null>(null);
  #failures = 0;
  #isRunning = false;
  #isAsked = false;
  #seenEvents = -1;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #news: AbortController | null = null;

  constructor(tools: SharingTools, settings: DeviceSettings) {
    this.#tools = tools;
    this.#settings = settings;
  }

  get reach(): Reach {
    return this.#reach;
  }

  /** As whom the hub knows this device; null when the record is on this device only. */
  get member(): Member | null {
    return this.#place?.member ?? null;
  }

  /** The line to the hub, for what a lead asks of it. */
  get place(): Place | null {
    return this.#place;
  }

  /** How many events of this device the hub has yet to get. */
  get waiting(): number {
    return this.#waiting;
  }

  /** What the hub did not take, with its reasons. */
  get refused(): readonly Refusal[] {
    return this.#refused;
  }

  /** Who handed an event to the hub, by its id, where its own device did not. */
  get broughtBy(): ReadonlyMap<string, string> {
    return this.#broughtBy;
  }

  /** How far this device's clock is ahead of the hub's, milliseconds; null while it is right. */
  get clockGap_ms(): number | null {
    return this.#clockGap_ms;
  }

  /** Shares a season for as long as it is open; gives the way to stop. */
  follow(season: SeasonState): () => void {
    if (season.isInvented) return () => undefined;
    this.#season = season;
    void this.#open(season);
    const stopListening = this.#tools.onReception(
      () => {
        this.#failures = 0;
        void this.exchange();
      },
      () => {
        // An open line costs battery; what is new is asked for when the page is seen again.
        this.#news?.abort();
        clearTimeout(this.#timer);
      },
    );
    return () => {
      stopListening();
      this.#close();
    };
  }

  /** Joins a hub with the season that is open, and brings it what is on record here. */
  async join(invitation: string, person: string): Promise<Joined> {
    const season = this.#season;
    if (season === null) return { ok: false, message: 'Open your own season first.' };
    const joined = await this.#tools.join(invitation, person);
    if (!joined.ok) return joined;
    this.#settings.change({ author: joined.member.person });
    await this.#open(season);
    return joined;
  }

  /** Ends the sharing on this device. What is on record stays here, and there. */
  async leave(): Promise<void> {
    const season = this.#season;
    await this.#tools.leave();
    this.#close();
    this.#season = season;
  }

  /** Offers the hub once more what it has refused. */
  async offerAgain(): Promise<void> {
    await this.#place?.shelf.forgetRefusals();
    await this.exchange();
  }

  /** Called when the record has changed: sends what is new in a moment. */
  nudge(): void {
    const events = this.#season?.record.events.size ?? 0;
    if (this.#place === null || events === this.#seenEvents) return;
    this.#waiting += Math.max(0, events - Math.max(0, this.#seenEvents));
    this.#seenEvents = events;
    // What came in or was noted meanwhile is looked at right after.
    if (this.#isRunning) this.#isAsked = true;
    else if (this.#reach.state !== 'waiting') this.#later(gather_ms);
  }

  /** Exchanges now; when it is at it already, once more after that. */
  async exchange(): Promise<void> {
    if (this.#isRunning) {
      this.#isAsked = true;
      return;
    }
    this.#isRunning = true;
    try {
      do {
        this.#isAsked = false;
        await this.#once();
      } while (this.#wantsMore());
    } finally {
      this.#isRunning = false;
    }
  }

  #wantsMore(): boolean {
    return this.#isAsked && this.#reach.state === 'up to date';
  }

  async #once(): Promise<void> {
    const [place, season] = [this.#place, this.#season];
    if (place === null || season === null || this.#reach.state === 'shut out') return;
    clearTimeout(this.#timer);
    this.#reach = { state: 'catching up', progress: null };
    const { member, line: hub, shelf } = place;
    const done = await this.#tools.alone(() =>
      exchange(
        {
          log: {
            read: () => Promise.resolve({ ok: true, events: season.held() }),
            append: (events) => season.takePiece(events),
          },
          shelf,
          hub,
          identity: member,
        },
        (progress) => {
          this.#reach = { state: 'catching up', progress };
        },
      ),
    );
    season.settle();
    if (this.#place !== place) return;
    if (done === null) {
      // Another tab is at it; what it takes in is here as well.
      this.#later(otherTab_ms);
      return;
    }
    this.#broughtBy = (await shelf.read()).broughtBy;
    this.#tell(done, season);
  }

  #tell({ problem, waiting, refused }: Exchanged, season: SeasonState): void {
    this.#waiting = waiting;
    this.#refused = refused;
    this.#seenEvents = season.record.events.size;
    if (problem === null) {
      this.#failures = 0;
      this.#reach = { state: 'up to date', at_ms: this.#tools.now_ms() };
      this.#later(round_ms);
      void this.#listen();
      return;
    }
    this.#news?.abort();
    if (problem.kind === 'shut out') {
      this.#reach = { state: 'shut out', message: problem.message };
      return;
    }
    this.#failures += 1;
    const asked_ms = (problem.wait_s ?? 0) * 1000;
    const wait_ms = Math.max(asked_ms, backoff_ms(this.#failures, this.#tools.luck()));
    this.#reach = { state: 'waiting', problem, next_ms: this.#tools.now_ms() + wait_ms };
    this.#later(wait_ms);
  }

  /** While the page is seen; when it is seen again, `onReception` says so. */
  #later(wait_ms: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      if (this.#tools.isSeen()) void this.exchange();
    }, wait_ms);
  }

  /** Keeps one line open on which the hub tells of news. */
  async #listen(): Promise<void> {
    const place = this.#place;
    if (place === null || (this.#news !== null && !this.#news.signal.aborted)) return;
    const news = new AbortController();
    this.#news = news;
    const changed = (): void => {
      if (this.#tools.isSeen()) void this.exchange();
    };
    const ended = await place.line.changes(changed, news.signal);
    if (this.#news === news) this.#news = null;
    if (ended === null || this.#place !== place) return;
    // The line broke: the next exchange finds out whether the hub is still there.
    this.#failures += 1;
    this.#later(backoff_ms(this.#failures, this.#tools.luck()));
  }

  async #open(season: SeasonState): Promise<void> {
    const place = await this.#tools.place((gap_ms) => {
      this.#clockGap_ms = gap_ms;
    });
    if (this.#season !== season) return;
    this.#place = place;
    this.#reach = place === null ? { state: 'alone' } : { state: 'catching up', progress: null };
    // Weeks of a record take minutes; nobody waits for them at a closed door.
    void this.exchange();
  }

  #close(): void {
    clearTimeout(this.#timer);
    this.#news?.abort();
    this.#news = null;
    this.#season = null;
    this.#place = null;
    this.#reach = { state: 'alone' };
    this.#waiting = 0;
    this.#refused = [];
    this.#clockGap_ms = null;
    this.#failures = 0;
    this.#seenEvents = -1;
  }
}

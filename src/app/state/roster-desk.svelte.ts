import type { EventId } from '../../core/domain/event.ts';
import type { NestId } from '../../core/domain/nest.ts';
import { type Night, formatNight } from '../../core/domain/night.ts';
import type { RosterSettings, WatchName } from '../../core/domain/roster.ts';
import { comingNights } from '../../core/forecast/coming-nights.ts';
import { askRoster, publishedPlacements } from '../../core/roster/ask-roster.ts';
import { makeRoster } from '../../core/roster/make-roster.ts';
import { type PlanChange, planChanges } from '../../core/roster/plan-changes.ts';
import { type Plan, type Roster, placementsOf, planOf } from '../../core/roster/plan.ts';
import { publishedNights } from '../../core/roster/publish.ts';
import { publishedPlan } from '../../core/roster/published-plan.ts';
import type { RosterQuestion } from '../../core/roster/roster-question.ts';
import type { Solver } from '../../core/roster/solver.ts';
import type { SeasonState } from './season-state.svelte.ts';

/** A phone should not be busy for longer, seconds; and a plan this near the bound is good enough. */
const effort = { time_s: 10, gap: 0.005 };

/** How often a plan is made anew because the odds moved while it was being made. */
const mostMoves = 2;

/** A plan that is not given out yet, and what it was made from. */
interface Draft {
  readonly roster: Roster;
  /** Changes when a new plan might come out otherwise. */
  readonly key: string;
}

/** The roster of one season while the app is open: the plan being made, and the verbs that change it. */
export class RosterDesk {
  readonly #season: SeasonState;
  readonly #solver: Solver;
  #count = $state.raw(7);
  #draft = $state.raw<Draft | null>(null);
  #working = $state.raw(false);
  #trouble = $state.raw<string | null>(null);
  #again = false;

  /** What there is to plan; null until the odds are there. */
  readonly question: RosterQuestion | null = $derived.by(() => {
    const { record, forecast } = this.#season;
    if (forecast === null) return null;
    const nights = comingNights(record, forecast, this.#count);
    return askRoster(record, nights, publishedPlacements(record, nights));
  });

  /** The plan on the table: the one being made, else what was given out. */
  readonly plan: Plan | null = $derived.by(() => {
    const { question } = this;
    if (question === null) return null;
    const draft = this.#draft?.roster.plan;
    const nights = question.nights.map(({ night }) => night);
    if (draft === undefined) return publishedPlan(this.#season.record, question);
    return planOf(draft.posts.filter(({ night }) => nights.includes(night)));
  });

  /** Whether odds, people or pins have changed since the plan was made. */
  readonly isStale: boolean = $derived(
    this.#draft !== null && this.question !== null && keyOf(this.question) !== this.#draft.key,
  );

  /** What giving the plan out would change for whom. */
  readonly changes: readonly PlanChange[] = $derived.by(() => {
    if (this.question === null || this.plan === null) return [];
    return planChanges(this.question.before, placementsOf(this.plan));
  });

  constructor(season: SeasonState, solver: Solver) {
    this.#season = season;
    this.#solver = solver;
  }

  /** How good the plan is and what it could not do; null while none was made here. */
  get roster(): Roster | null {
    return this.#draft?.roster ?? null;
  }

  get working(): boolean {
    return this.#working;
  }

  /** What went wrong last, in words. */
  get trouble(): string | null {
    return this.#trouble;
  }

  get count(): number {
    return this.#count;
  }

  /** Looks so many nights ahead, without planning them. */
  lookAhead(count: number): void {
    this.#count = count;
  }

  /** Plans for so many nights from tonight on. */
  async planFor(count: number): Promise<void> {
    this.#count = count;
    await this.replan();
  }

  /** Makes the plan anew, as near to the one on the table as its worth allows. */
  async replan(): Promise<void> {
    this.#again = true;
    if (this.#working) return;
    this.#working = true;
    try {
      let moved = 0;
      while (this.#again) {
        this.#again = false;
        await this.#planOnce();
        // Better odds may have come meanwhile; but a plan must be there some time.
        if (this.isStale && moved++ < mostMoves) this.#again = true;
      }
    } catch (error) {
      this.#trouble = `No plan could be made: ${error instanceof Error ? error.message : String(error)}`;
    } finally {
      this.#working = false;
    }
  }

  async #planOnce(): Promise<void> {
    const { question, plan } = this;
    if (question === null) return;
    const before = this.#draft === null || plan === null ? question.before : placementsOf(plan);
    const roster = await makeRoster({ ...question, before }, this.#solver, effort);
    this.#draft = { roster, key: keyOf(question) };
    this.#trouble = roster.trouble;
  }

  /** Puts somebody at a post by hand, or (null) has the post kept whoever sits there; plans again. */
  async pin(night: Night, watch: WatchName, nest: NestId, sitter: string | null): Promise<void> {
    const others = this.pinsAt(night, watch, (entry) => sitter !== null && entry.sitter === sitter);
    for (const { id } of others) await this.#write(this.#season.withdraw(id, 'placed elsewhere'));
    const details = { night: formatNight(night), watch, at_nest: nest, volunteer: sitter };
    if (await this.#write(this.#season.write({ kind: 'pinned', details }))) await this.replan();
  }

  async unpin(ids: readonly EventId[]): Promise<void> {
    for (const id of ids) await this.#write(this.#season.withdraw(id, 'released'));
    await this.replan();
  }

  /** The pins of one watch that are wanted, with the events that made them. */
  pinsAt(
    night: Night,
    watch: WatchName,
    isWanted: (pin: { readonly nest: NestId; readonly sitter: string | null }) => boolean,
  ): readonly { readonly id: EventId; readonly nest: NestId; readonly sitter: string | null }[] {
    return this.#season.record.pins.flatMap(({ fact, original }) => {
      const { details } = fact;
      if (details.night !== formatNight(night) || details.watch !== watch) return [];
      const pin = { id: original.id, nest: details.at_nest, sitter: details.volunteer ?? null };
      return isWanted(pin) ? [pin] : [];
    });
  }

  /** The lead's call on whether one pair can watch two nests. */
  async judgeSight(nests: readonly [NestId, NestId], together: boolean): Promise<void> {
    const [one, other] = nests;
    const details = { nests: [one, other] satisfies [NestId, NestId], together };
    if (await this.#write(this.#season.write({ kind: 'sight-judged', details }))) {
      await this.replan();
    }
  }

  /** Changes how sitters are placed. */
  async setRules(changes: RosterSettings): Promise<void> {
    const { programme } = this.#season.record;
    const roster = { ...programme.roster, ...changes };
    const body = { kind: 'programme-described', programme: { ...programme, roster } } as const;
    if (await this.#write(this.#season.write(body))) await this.replan();
  }

  /** Gives the plan out: from then on it is what everybody is told, until it is given out anew. */
  async publish(): Promise<boolean> {
    const { question, plan } = this;
    if (question === null || plan === null) return false;
    const nights = question.nights.map(({ night }) => night);
    const changed = this.changes.map(({ night }) => formatNight(night));
    for (const details of publishedNights(plan, nights, question.zone)) {
      if (!changed.includes(details.night)) continue;
      const body = { kind: 'night-published', details } as const;
      if (!(await this.#write(this.#season.write(body)))) return false;
    }
    return true;
  }

  async #write(writing: ReturnType<SeasonState['write']>): Promise<boolean> {
    const written = await writing;
    this.#trouble = written.ok ? null : written.problem.message;
    return written.ok;
  }
}

/** What a plan follows from, in one text; chances to the percent, so that a passing minute is no change. */
function keyOf({ rules, nights, posts, sitters, pins }: RosterQuestion): string {
  return JSON.stringify([
    rules,
    nights.map(({ night, chances }) => [night, chances.map(({ p }) => Math.round(p * 100))]),
    posts.map(({ id }) => id),
    sitters.map(({ free, sat, ...rest }) => [rest, [...free], sat.length]),
    pins,
  ]);
}

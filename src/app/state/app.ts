import type { Solver } from '../../core/roster/solver.ts';
import type { Language } from '../../words/languages.ts';
import type { Clock } from './clock.svelte.ts';
import type { CodeReader } from './code-reader.ts';
import type { Compass } from './compass.ts';
import type { DayOrDark } from './day-or-dark.svelte.ts';
import type { DeviceSettings } from './device-settings.svelte.ts';
import type { FileDesk } from './file-desk.ts';
import type { GuidedLook } from './guided-look.svelte.ts';
import type { ListenTools } from './listen-state.svelte.ts';
import type { Notices } from './notices.svelte.ts';
import type { OddsReplay } from './odds-replay.svelte.ts';
import type { PositionFinder } from './position-finder.ts';
import type { ReadinessTools } from './readiness-tools.ts';
import type { Router } from './router.svelte.ts';
import type { Seasons } from './seasons.svelte.ts';
import type { Sharing } from './sharing.svelte.ts';
import type { StorageGauge } from './storage-gauge.ts';

/** What every screen may use besides the season that is open. */
export interface App {
  readonly router: Router;
  readonly guide: GuidedLook;
  readonly settings: DeviceSettings;
  readonly dayOrDark: DayOrDark;
  /** The device's own; a season may have another. */
  readonly clock: Clock;
  readonly notices: Notices;
  readonly seasons: Seasons;
  readonly oddsReplay: OddsReplay;
  readonly files: FileDesk;
  readonly storage: StorageGauge;
  /** What the device tells of itself before an evening; missing where it tells nothing. */
  readonly readiness?: ReadinessTools;
  /** Missing where no hub can be spoken to. */
  readonly sharing?: Sharing;
  /** Missing where there can be no compass. */
  readonly compass?: Compass;
  /** Missing where nothing can tell where the device is. */
  readonly position?: PositionFinder;
  /** What listening needs, read when first gone to. Missing where there can be no microphone. */
  readonly listen?: () => Promise<ListenTools>;
  /** Reads codes by the camera, fetched when first gone to. Missing where there can be no camera. */
  readonly codeReader?: () => Promise<CodeReader>;
  /** Solves rosters; where it is missing they are made step by step. */
  readonly solver?: Solver;
  /** Keeps the switch and the dark hours to come where the first paint finds them. */
  readonly rememberDark: () => void;
  /** The language of every word on the screen, from the start of the page on. */
  readonly language: Language;
  /** Loads the page anew; what is on record stays, what is being entered does not. */
  readonly startAgain: () => void;
}

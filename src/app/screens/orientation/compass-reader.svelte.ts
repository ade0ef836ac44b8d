import { trueBearing } from '../../../core/orientation/declination.ts';
import type { Compass, CompassLeave } from '../../state/compass.ts';

/** The phone's compass while a screen reads it: true bearings, corrected for declination. */
export class CompassReader {
  readonly #compass: Compass;
  readonly #east_deg: number;
  #stop: (() => void) | null = null;
  #leave: CompassLeave;
  #bearing_deg = $state.raw<number | null>(null);
  #accuracy_deg = $state.raw<number | null>(null);
  #isReading = $state.raw(false);

  constructor(compass: Compass, east_deg: number) {
    this.#compass = compass;
    this.#east_deg = east_deg;
    this.#leave = $state.raw(compass.leave());
  }

  get leave(): CompassLeave {
    return this.#leave;
  }

  get isReading(): boolean {
    return this.#isReading;
  }

  /** Degrees clockwise from true north; null until the sensor has told. */
  get bearing_deg(): number | null {
    return this.#bearing_deg;
  }

  get accuracy_deg(): number | null {
    return this.#accuracy_deg;
  }

  /** Asks for leave and begins when it is given. Only from a tap on the day screen. */
  async ask(): Promise<void> {
    this.#leave = await this.#compass.ask();
    if (this.#leave === 'given') this.start();
  }

  start(): void {
    if (this.#stop !== null) return;
    this.#isReading = true;
    this.#stop = this.#compass.watch(({ magnetic_deg, accuracy_deg }) => {
      this.#bearing_deg = Math.round(trueBearing(magnetic_deg, this.#east_deg)) % 360;
      this.#accuracy_deg = accuracy_deg;
    });
  }

  stop(): void {
    this.#stop?.();
    this.#stop = null;
    this.#isReading = false;
    this.#bearing_deg = null;
  }
}

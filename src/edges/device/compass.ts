import { turn_deg } from '../../core/numerics/angle.ts';

/** Where the top of the phone points, degrees clockwise from magnetic north. */
interface Reading {
  readonly magnetic_deg: number;
  readonly accuracy_deg: number | null;
}

type Leave = 'given' | 'to be asked' | 'refused' | 'none';

/** What Safari adds to an orientation event: a heading and how far off it may be (-1: not calibrated). */
interface HeadingEvent {
  readonly webkitCompassHeading?: number;
  readonly webkitCompassAccuracy?: number;
  readonly alpha: number | null;
  readonly beta: number | null;
  readonly gamma: number | null;
  readonly absolute: boolean;
}

/** What is needed of the browser; tests pass their own. */
export interface CompassDevice {
  /** Whether the device tells of its orientation at all. */
  readonly hasSensor: boolean;
  /** Safari's question; null where none is asked. */
  readonly requestPermission: (() => Promise<'granted' | 'denied' | 'default'>) | null;
  /** Listens for orientation events of one kind; gives the way to stop. */
  readonly listen: (
    kind: 'deviceorientation' | 'deviceorientationabsolute',
    told: (event: HeadingEvent) => void,
  ) => () => void;
  /** How far the page is turned from the device's own upright, degrees. */
  readonly pageTurn_deg: () => number;
}

/**
 * The compass of a phone. Where Safari gives its own heading that is taken; else the angle about the
 * vertical of an event that says it is absolute. Both are magnetic (Chromium's sensor is not corrected
 * for declination either; from memory of its sources), so declination is for the caller to add.
 */
export class DeviceCompass {
  readonly #device: CompassDevice;
  #leave: Leave;

  constructor(device: CompassDevice = browserDevice()) {
    this.#device = device;
    if (!device.hasSensor) this.#leave = 'none';
    else this.#leave = device.requestPermission === null ? 'given' : 'to be asked';
  }

  leave(): Leave {
    return this.#leave;
  }

  async ask(): Promise<Leave> {
    const { requestPermission } = this.#device;
    if (requestPermission !== null) {
      try {
        this.#leave = (await requestPermission()) === 'granted' ? 'given' : 'refused';
      } catch {
        // Safari refuses when it was not asked from a tap: it can be asked again.
        this.#leave = 'to be asked';
      }
    }
    return this.#leave;
  }

  watch(told: (reading: Reading) => void): () => void {
    const hear = (event: HeadingEvent): void => {
      const reading = readingOf(event, this.#device.pageTurn_deg());
      if (reading !== null) told(reading);
    };
    const stops = (['deviceorientationabsolute', 'deviceorientation'] as const).map((kind) =>
      this.#device.listen(kind, hear),
    );
    return () => {
      for (const stop of stops) stop();
    };
  }
}

function readingOf(event: HeadingEvent, pageTurn_deg: number): Reading | null {
  const { webkitCompassHeading: heading, webkitCompassAccuracy: accuracy } = event;
  if (typeof heading === 'number' && Number.isFinite(heading)) {
    const accuracy_deg = typeof accuracy === 'number' && accuracy >= 0 ? accuracy : null;
    return { magnetic_deg: turn_deg(heading + pageTurn_deg), accuracy_deg };
  }
  if (!event.absolute || event.alpha === null) return null;
  // The angle counts anticlockwise from north (Device Orientation Event specification, W3C).
  return { magnetic_deg: turn_deg(360 - event.alpha + pageTurn_deg), accuracy_deg: null };
}

function browserDevice(): CompassDevice {
  const hasSensor = typeof window !== 'undefined' && 'DeviceOrientationEvent' in window;
  const sensor: unknown = hasSensor ? window.DeviceOrientationEvent : null;
  const asks = hasQuestion(sensor) ? sensor : null;
  return {
    hasSensor: hasSensor && matchMedia('(pointer: coarse)').matches,
    requestPermission: asks === null ? null : () => asks.requestPermission(),
    listen(kind, told) {
      const hear = (event: Event): void => {
        if (event instanceof DeviceOrientationEvent) told(event);
      };
      window.addEventListener(kind, hear);
      return () => {
        window.removeEventListener(kind, hear);
      };
    },
    // Safari had none before 16.4; there the page is taken as upright.
    pageTurn_deg: () => ('orientation' in screen ? screen.orientation.angle : 0),
  };
}

/** Safari asks before it tells; the standard has no such question. */
function hasQuestion(
  sensor: unknown,
): sensor is { requestPermission: () => Promise<'granted' | 'denied' | 'default'> } {
  return (
    typeof sensor === 'function' &&
    'requestPermission' in sensor &&
    typeof sensor.requestPermission === 'function'
  );
}

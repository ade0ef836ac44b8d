import { energyFrom, firstScratchBand } from './bands.ts';
import { decibels } from './decibels.ts';

/** Frames in one point of the trace: 64 ms. */
const framesInPoint = 8;
/** White noise of full power has mean power 1 in each of these bins. */
const halfSpectrum = 128;

/** Level and floor of the scratching bands over time, for drawing; decibels of full scale. */
export interface TracePoint {
  readonly at_s: number;
  /** Of all that is heard. */
  readonly whole_dbfs: number;
  readonly level_dbfs: number;
  readonly floor_dbfs: number;
}

/** Gathers the points of the trace until they are taken. */
export class Trace {
  #points: TracePoint[] = [];
  #frames = 0;
  #level = 0;
  #floor = 0;

  /** One short frame: powers and floors by band, when it ended, and the level of all that is heard. */
  add(powers: Float64Array, floor_db: Float64Array, at_s: number, whole_dbfs: number): void {
    this.#level += energyFrom(powers, firstScratchBand);
    this.#floor += energyFrom(
      floor_db.map((db) => 10 ** (db / 10)),
      firstScratchBand,
    );
    this.#frames++;
    if (this.#frames < framesInPoint) return;
    this.#points.push({
      at_s,
      whole_dbfs,
      level_dbfs: decibels(this.#level / framesInPoint / halfSpectrum),
      floor_dbfs: decibels(this.#floor / framesInPoint / halfSpectrum),
    });
    this.#frames = 0;
    this.#level = 0;
    this.#floor = 0;
  }

  /** The points since this was last asked. */
  take(): readonly TracePoint[] {
    const taken = this.#points;
    this.#points = [];
    return taken;
  }
}

import type { NestId } from '../../core/domain/nest.ts';
import type { Moment, Reason, SeasonForecast } from '../../core/forecast/forecast.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';

/** The chance for the rest of a night when watched so far with nothing seen. */
export interface RestOfNight {
  readonly pRest: number;
  readonly byHour: readonly {
    readonly from_ms: number;
    readonly to_ms: number;
    readonly p: number;
  }[];
}

/** Works out the odds, here or in a worker. A failure of the calculation rejects. */
export interface Forecaster {
  forecast(record: SeasonRecord, moment: Moment): Promise<SeasonForecast>;
  why(record: SeasonRecord, moment: Moment, nest: NestId): Promise<readonly Reason[]>;
  restOfNight(record: SeasonRecord, moment: Moment, nest: NestId): Promise<RestOfNight>;
}

import type { Glance } from '../../core/forecast/glance.ts';

/** Where the odds of one's own season stand in short, for the next opening. */
export interface Glances {
  /** What was kept last; null when nothing was. */
  read(): Glance | null;
  keep(glance: Glance): void;
  /** For a season that is open no more. */
  forget(): void;
}

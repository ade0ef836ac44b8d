import { type VisitDetails, WayStep } from '../domain/visit.ts';

/** One step of the way to the water on one evening, and who saw to it; empty = not done yet. */
export interface StepDone {
  readonly step: WayStep;
  readonly by: readonly string[];
  readonly isDone: boolean;
}

/** What was seen to at a nest on one evening by everybody together, from the notes of that night. */
export function wayToTheWater(notes: readonly VisitDetails[]): readonly StepDone[] {
  return WayStep.options.map((step) => {
    const done = notes.filter(({ way }) => (way ?? []).includes(step));
    const by = new Set(done.flatMap(({ observer }) => observer ?? []));
    return { step, by: [...by], isDone: done.length > 0 };
  });
}

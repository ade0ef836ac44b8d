import { together } from './gain.ts';
import type { Plan, PlannedPost } from './plan.ts';
import type { OpeningColumns } from './opening-columns.ts';
import type { Openings } from './openings.ts';
import type { RosterProgram } from './roster-program.ts';
import type { RosterQuestion } from './roster-question.ts';
import type { Start } from './solver.ts';

/** A plan as a solution of the program, for the solver to start from. */
export function startFrom(
  plan: Plan,
  question: RosterQuestion,
  found: Openings,
  { program, openings, broken, shifts }: RosterProgram,
): Start {
  const values = new Float64Array(program.columns.length);
  const add = (column: number | undefined, value = 1): void => {
    if (column !== undefined) values[column] = (values[column] ?? 0) + value;
  };
  for (const planned of plan.posts) {
    const columns = openings.find(({ opening }) => isOf(opening, planned));
    if (columns !== undefined) addPost(question, columns, planned, add);
  }
  broken.forEach((column, index) => {
    const pin = found.pins[index];
    const isKept = plan.posts.some(
      (planned) =>
        planned.night === pin?.pin.night &&
        planned.watch === pin.pin.watch &&
        planned.post === pin.post &&
        (pin.pin.sitter === null || planned.sitters.includes(pin.pin.sitter)),
    );
    if (column !== null && !isKept) add(column);
  });
  shifts.forEach((columns, index) => {
    const name = question.sitters[index]?.name ?? '';
    const count = plan.posts.filter(({ sitters }) => sitters.includes(name)).length;
    for (const column of columns.slice(0, count)) add(column);
  });
  return { columns: [...values.keys()], values: [...values] };
}

function isOf({ shift, posts }: OpeningColumns['opening'], planned: PlannedPost): boolean {
  return (
    shift.outlook.night === planned.night &&
    shift.watch === planned.watch &&
    posts.includes(planned.post)
  );
}

function addPost(
  question: RosterQuestion,
  { opening, kept, sits, named, serving, wanting }: OpeningColumns,
  planned: PlannedPost,
  add: (column: number | undefined, value?: number) => void,
): void {
  const { experienced } = question.rules;
  const crew = [...opening.hands.keys()].filter((hand) =>
    planned.sitters.includes(question.sitters[opening.hands[hand]?.sitter ?? -1]?.name ?? ''),
  );
  const duty = together(crew.flatMap((hand) => opening.hands[hand]?.duty ?? []));
  const choice = kept.find(
    (entry) =>
      opening.posts[entry.post] === planned.post &&
      entry.duty.from_ms === duty.from_ms &&
      entry.duty.to_ms === duty.to_ms,
  );
  if (choice === undefined) return;
  add(choice.column);
  let skilledByName = 0;
  for (const hand of crew) {
    add(sits[hand]);
    const byName = named.find((entry) => entry.hand === hand && entry.kept === choice);
    add(byName?.column);
    const skilled = question.sitters[opening.hands[hand]?.sitter ?? -1]?.experienced ?? false;
    if (byName !== undefined && skilled) skilledByName += 1;
    if (byName !== undefined) continue;
    const served = serving.find(
      (entry) => entry.handClass.hands.includes(hand) && entry.duty === choice.duty,
    );
    add(served?.column);
  }
  const wants = wanting.find((entry) => entry.kept === choice);
  add(wants?.column, Math.max(0, experienced - skilledByName));
}

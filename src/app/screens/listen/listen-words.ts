import { warningText } from '../../../core/acoustics/warnings.ts';
import type { Reading } from '../../../core/acoustics/reading.ts';
import type { EarProblem, LeftOn } from '../../state/ear.ts';
import { fixedText, listWords } from '../../../core/domain/locale.ts';

/** What went wrong with the microphone, and what to do. */
export function problemText(problem: EarProblem): string {
  switch (problem) {
    case 'refused':
      return 'The browser was told not to let this page use the microphone. Allow it in the settings of the site (the sign beside the address), by daylight, then try again.';
    case 'no microphone':
      return 'No microphone was found. Plug it in, wait a moment, and try again.';
    case 'in use elsewhere':
      return 'Another app has the microphone, such as a call. End that and try again.';
    case 'not possible here':
      return 'This browser cannot listen. Open the app over https in a current browser, or open a recording instead.';
    case 'failed':
      return 'The microphone could not be started. Try again; if it fails twice, reload the page.';
  }
}

/** `2:05`, minutes and seconds. */
export function timeText(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** `320 kB`, `1.4 MB`. */
export function sizeText(bytes: number): string {
  return bytes < 1e6 ? `${Math.round(bytes / 1000)} kB` : `${fixedText(bytes / 1e6, 1)} MB`;
}

/** Everything that speaks against the reading, as sentences. */
export function doubts(
  reading: Reading | null,
  leftOn: readonly LeftOn[],
  missed_s: number,
  wasHidden: boolean,
): readonly string[] {
  const left =
    leftOn.length === 0
      ? []
      : [
          `This device keeps ${listWords(leftOn)} on. It swallows faint scratches: take the reading with doubt.`,
        ];
  const hidden = wasHidden
    ? [
        'This page was not in front for a while, or the screen was locked. Some devices stop the microphone then: keep it in front.',
      ]
    : [];
  const missed =
    missed_s < 1
      ? hidden
      : [
          `${Math.round(missed_s)} seconds did not arrive (page hidden, screen locked or a call). They do not count; keep this page in front and the screen on.`,
        ];
  // While somebody walks, the screen says so in large letters.
  const said = (reading?.warnings ?? []).filter((warning) => warning !== 'footsteps');
  return [...left, ...missed, ...said.map(warningText)];
}

import type { TracePoint } from '../../core/acoustics/trace.ts';
import type { Reading } from '../../core/acoustics/reading.ts';
import { readWav } from '../../core/acoustics/wav.ts';
import { writeWav } from '../../core/acoustics/write-wav.ts';
import type { FromAnalyst, ToAnalyst } from '../workers/listen-messages.ts';
import { type ClipShelf, longestClip_s } from './clips.ts';
import type { Ear, EarLeave, EarProblem, LeftOn } from './ear.ts';

/** Who analyses: a worker, or the page itself. */
export interface Analyst {
  send(message: ToAnalyst): void;
  listen(found: (message: FromAnalyst) => void): void;
  close(): void;
}

/** What listening needs of the device. */
export interface ListenTools {
  readonly ear: Ear;
  readonly newAnalyst: () => Analyst;
  readonly clips: ClipShelf;
  /** Calls back when the page is hidden and when it is seen again; gives the way to stop. */
  readonly onHidden: (told: (isHidden: boolean) => void) => () => void;
  /** A running clock in milliseconds that no one sets. */
  readonly steady_ms: () => number;
}

export type Listening =
  | { readonly phase: 'not yet' }
  | { readonly phase: 'asking' }
  | { readonly phase: 'listening' }
  | { readonly phase: 'over'; readonly why: 'stopped' | 'time is up' | 'unplugged' }
  | { readonly phase: 'reading'; readonly name: string }
  | { readonly phase: 'file'; readonly name: string; readonly note: string | null }
  | { readonly phase: 'could not'; readonly problem: EarProblem }
  | { readonly phase: 'could not read'; readonly message: string };

/** The listening period that is offered; any length counts for what it is. */
const usualPeriod_s = 600;
export const periods_s = [120, 300, 600] as const;
/** Points of the trace that are kept for drawing: 64 ms each, half a minute. */
const traceLength = 470;
/** Sound that did not arrive although time passed: more than this is said. */
const missing_s = 3;
/** Frames of a recording that are handed over at a time. */
const filePiece = 2 ** 18;

/** A clip while it is made. */
export type ClipState =
  | { readonly state: 'none' }
  | { readonly state: 'recording'; readonly seconds: number }
  | { readonly state: 'ready'; readonly seconds: number; readonly bytes: number };

/** One listening with the microphone, or one recording looked through. */
export class ListenState {
  readonly #tools: ListenTools;
  #analyst: Analyst | null = null;
  #number = 0;
  #closeEar: (() => void) | null = null;
  #stopHidden: (() => void) | null = null;
  #rate_hz = 1;
  #began_ms = 0;
  /** Frames that came from the microphone. */
  #arrived = 0;
  #fileNote: string | null = null;
  #clipBlocks: Float32Array[] = [];
  #clipFrames = 0;
  #clip: { readonly sound: Uint8Array<ArrayBuffer>; readonly seconds: number } | null = null;

  #listening = $state.raw<Listening>({ phase: 'not yet' });
  #reading = $state.raw<Reading | null>(null);
  #trace = $state.raw<readonly TracePoint[]>([]);
  #leftOn = $state.raw<readonly LeftOn[]>([]);
  #leave = $state.raw<EarLeave>('not known');
  #isInterrupted = $state.raw(false);
  #wasHidden = $state.raw(false);
  #missed_s = $state.raw(0);
  #period_s = $state.raw(usualPeriod_s);
  #clipState = $state.raw<ClipState>({ state: 'none' });

  constructor(tools: ListenTools) {
    this.#tools = tools;
    void this.askLeave();
  }

  get listening(): Listening {
    return this.#listening;
  }

  /** What was found so far; null before anything was. */
  get reading(): Reading | null {
    return this.#reading;
  }

  get trace(): readonly TracePoint[] {
    return this.#trace;
  }

  /** What the device does to the sound although it was asked not to. */
  get leftOn(): readonly LeftOn[] {
    return this.#leftOn;
  }

  get leave(): EarLeave {
    return this.#leave;
  }

  /** Another app has the microphone, such as a call. */
  get isInterrupted(): boolean {
    return this.#isInterrupted;
  }

  /** Seconds of sound that never came: the page was hidden, the screen locked, or a call came in. */
  get missed_s(): number {
    return this.#missed_s;
  }

  /** The page was not in front for a while. */
  get wasHidden(): boolean {
    return this.#wasHidden;
  }

  get period_s(): number {
    return this.#period_s;
  }

  get clip(): ClipState {
    return this.#clipState;
  }

  get isRunning(): boolean {
    return this.#listening.phase === 'listening';
  }

  choosePeriod(seconds: number): void {
    this.#period_s = seconds;
  }

  async askLeave(): Promise<void> {
    this.#leave = await this.#tools.ear.leave();
  }

  /** Starts anew; what was heard before is let go. */
  async start(): Promise<void> {
    this.stop();
    this.#listening = { phase: 'asking' };
    const number = this.#begin();
    const opened = await this.#tools.ear.open(
      (block) => {
        if (number === this.#number && this.isRunning) this.#hear(block);
      },
      (news) => {
        if (number !== this.#number) return;
        if (news === 'unplugged') this.#end('unplugged');
        else this.#isInterrupted = news === 'interrupted';
      },
    );
    void this.askLeave();
    if (!opened.ok) {
      this.#listening = { phase: 'could not', problem: opened.problem };
      return;
    }
    if (number !== this.#number) {
      opened.close();
      return;
    }
    this.#closeEar = () => {
      opened.close();
    };
    this.#leftOn = opened.leftOn;
    this.#rate_hz = opened.rate_hz;
    this.#began_ms = this.#tools.steady_ms();
    this.#analyst?.send({ kind: 'start', listening: number, rate_hz: opened.rate_hz });
    this.#listening = { phase: 'listening' };
    this.#stopHidden = this.#tools.onHidden((isHidden) => {
      this.#wasHidden ||= isHidden;
      // The system may have stopped the microphone meanwhile without a word.
      if (!isHidden) this.#noticeMissing();
    });
  }

  stop(): void {
    if (this.isRunning) this.#end('stopped');
  }

  /** Looks through a recording: WAV as it is, anything else as the browser reads it. */
  async openFile(name: string, bytes: Uint8Array): Promise<void> {
    this.stop();
    const number = this.#begin();
    this.#listening = { phase: 'reading', name };
    const read = readWav(bytes);
    if (read.ok) {
      const { rate_hz, length } = read.wav;
      this.#fileNote = read.note;
      this.#analyse(number, rate_hz, length, (from, to) => read.wav.read(from, to));
      return;
    }
    const decoded = await this.#tools.ear.decode(new Uint8Array(bytes).buffer);
    if (number !== this.#number) return;
    if (decoded === null) {
      this.#listening = { phase: 'could not read', message: `${name}: ${read.message}` };
      return;
    }
    const { samples, rate_hz } = decoded;
    this.#fileNote = null;
    this.#analyse(number, rate_hz, samples.length, (from, to) => samples.slice(from, to));
  }

  /** Records from now on, for `longestClip_s` at most. Nothing is recorded before this. */
  recordClip(): void {
    this.#emptyClip();
    this.#clip = null;
    this.#clipState = { state: 'recording', seconds: 0 };
  }

  /** Ends the recording of a clip before its time is up. */
  endClip(): void {
    if (this.#clipState.state === 'recording') this.#finishClip();
  }

  discardClip(): void {
    this.#emptyClip();
    this.#clip = null;
    this.#clipState = { state: 'none' };
  }

  /** The clip as a WAV file, when there is one. */
  takeClip(): { readonly sound: Uint8Array<ArrayBuffer>; readonly seconds: number } | null {
    this.endClip();
    return this.#clip;
  }

  /** Lets go of microphone and worker. */
  close(): void {
    this.stop();
    this.#number++;
    this.#closeEar?.();
    this.#analyst?.close();
    this.#analyst = null;
  }

  #begin(): number {
    const number = ++this.#number;
    this.#analyst ??= this.#newAnalyst();
    this.#reading = null;
    this.#trace = [];
    this.#leftOn = [];
    this.#isInterrupted = false;
    this.#missed_s = 0;
    this.#arrived = 0;
    this.#wasHidden = false;
    this.discardClip();
    return number;
  }

  #newAnalyst(): Analyst {
    const analyst = this.#tools.newAnalyst();
    analyst.listen(({ listening, reading, trace, isFinal }) => {
      if (listening !== this.#number) return;
      const now = this.#listening;
      if (isFinal && now.phase === 'reading') {
        this.#listening = { phase: 'file', name: now.name, note: this.#fileNote };
      }
      this.#reading = reading;
      this.#trace = [...this.#trace, ...trace].slice(-traceLength);
      if (this.isRunning && reading.heard_s >= this.#period_s) this.#end('time is up');
    });
    return analyst;
  }

  #analyse(
    number: number,
    rate_hz: number,
    length: number,
    part: (from: number, to: number) => Float32Array,
  ): void {
    this.#analyst?.send({ kind: 'start', listening: number, rate_hz });
    for (let at = 0; at < length; at += filePiece) {
      this.#analyst?.send({ kind: 'samples', block: part(at, Math.min(length, at + filePiece)) });
    }
    this.#analyst?.send({ kind: 'finish' });
  }

  #hear(block: Float32Array): void {
    if (this.#clipState.state === 'recording') this.#recordBlock(block.slice());
    this.#analyst?.send({ kind: 'samples', block });
    this.#arrived += block.length;
    this.#noticeMissing();
  }

  #noticeMissing(): void {
    const passed_s = (this.#tools.steady_ms() - this.#began_ms) / 1000;
    const missed_s = passed_s - this.#arrived / this.#rate_hz;
    if (missed_s > this.#missed_s + missing_s) this.#missed_s = missed_s;
  }

  #recordBlock(block: Float32Array): void {
    this.#clipBlocks.push(block);
    this.#clipFrames += block.length;
    const seconds = this.#clipFrames / this.#rate_hz;
    this.#clipState = { state: 'recording', seconds };
    if (seconds >= longestClip_s) this.#finishClip();
  }

  #finishClip(): void {
    const samples = new Float32Array(this.#clipFrames);
    let at = 0;
    for (const block of this.#clipBlocks) {
      samples.set(block, at);
      at += block.length;
    }
    this.#emptyClip();
    const sound = writeWav(samples, this.#rate_hz);
    const seconds = samples.length / this.#rate_hz;
    this.#clip = { sound, seconds };
    this.#clipState = { state: 'ready', seconds, bytes: sound.length };
  }

  #emptyClip(): void {
    this.#clipBlocks = [];
    this.#clipFrames = 0;
  }

  #end(why: 'stopped' | 'time is up' | 'unplugged'): void {
    this.endClip();
    this.#closeEar?.();
    this.#closeEar = null;
    this.#stopHidden?.();
    this.#stopHidden = null;
    this.#isInterrupted = false;
    this.#listening = { phase: 'over', why };
    this.#analyst?.send({ kind: 'finish' });
  }
}

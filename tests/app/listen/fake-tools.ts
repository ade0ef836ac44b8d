import type { Clip, ClipShelf } from '../../../src/app/state/clips.ts';
import type { EarLeave, EarNews, EarProblem, LeftOn } from '../../../src/app/state/ear.ts';
import type { ListenTools } from '../../../src/app/state/listen-state.svelte.ts';
import { ListenAnalyst } from '../../../src/app/workers/listen-analyst.ts';
import type { FromAnalyst } from '../../../src/app/workers/listen-messages.ts';

/** A microphone that a test speaks into, and an analyst that answers at once. */
export function fakeTools(
  options: {
    readonly leave?: EarLeave;
    readonly problem?: EarProblem;
    readonly leftOn?: readonly LeftOn[];
  } = {},
) {
  let samples: (block: Float32Array) => void = () => undefined;
  let news: (what: EarNews) => void = () => undefined;
  let hidden: (isHidden: boolean) => void = () => undefined;
  let now_ms = 0;
  let isOpen = false;
  const kept = new Map<string, Clip>();
  const clips: ClipShelf = {
    all: () => Promise.resolve([...kept.values()]),
    keep: (clip) => {
      kept.set(clip.id, clip);
      return Promise.resolve({ ok: true });
    },
    drop: (id) => {
      kept.delete(id);
      return Promise.resolve();
    },
  };
  const tools: ListenTools = {
    ear: {
      leave: () => Promise.resolve(options.leave ?? 'given'),
      open: (heard, told) => {
        if (options.problem !== undefined) {
          return Promise.resolve({ ok: false, problem: options.problem });
        }
        [samples, news, isOpen] = [heard, told, true];
        return Promise.resolve({
          ok: true,
          rate_hz: 16_000,
          leftOn: options.leftOn ?? [],
          close: () => {
            isOpen = false;
          },
        });
      },
      decode: () => Promise.resolve(null),
    },
    newAnalyst: () => {
      let found: (message: FromAnalyst) => void = () => undefined;
      const analyst = new ListenAnalyst((message) => {
        found(message);
      });
      return {
        send: (message) => {
          analyst.take(message);
        },
        listen: (told) => {
          found = told;
        },
        close: () => undefined,
      };
    },
    clips,
    onHidden: (told) => {
      hidden = told;
      return () => undefined;
    },
    steady_ms: () => now_ms,
  };
  return {
    tools,
    kept,
    isOpen: () => isOpen,
    tell: (what: EarNews) => {
      news(what);
    },
    hide: () => {
      hidden(true);
    },
    show: () => {
      hidden(false);
    },
    /** Time that passes without a sound arriving. */
    lose: (seconds: number) => {
      now_ms += seconds * 1000;
    },
    /** Sound at 16 kHz, arriving as fast as it was made. */
    hear: (sound: Float32Array) => {
      for (let at = 0; at < sound.length; at += 2048) {
        const block = sound.slice(at, at + 2048);
        now_ms += (block.length / 16_000) * 1000;
        samples(block);
      }
    },
  };
}

import type { Reach } from '../../state/sharing.svelte.ts';
import { countOf } from '../../../core/domain/locale.ts';

const grouped = (count: number): string => countOf(count);

/** How it stands with the hub, in the two or three words that fit at the top of the screen. */
export function reachInShort(reach: Reach, waiting: number): string {
  switch (reach.state) {
    case 'alone':
      return 'This device only';
    case 'shut out':
      return 'Shut out';
    case 'catching up': {
      const { progress } = reach;
      if (progress === null || progress.of < 2) return 'Catching up';
      return `${grouped(progress.done)} of ${grouped(progress.of)}`;
    }
    case 'up to date':
    case 'waiting':
      if (waiting > 0) return `${grouped(waiting)} waiting`;
      return reach.state === 'waiting' ? 'No reception' : 'Up to date';
  }
}

/** The same as a sentence, for whoever asks or listens. */
export function reachInFull(reach: Reach, waiting: number, refused: number): string {
  const held =
    waiting === 0
      ? 'No note of this device is waiting'
      : `${grouped(waiting)} ${waiting === 1 ? 'entry of this device waits' : 'entries of this device wait'}`;
  const told = (text: string): string =>
    refused === 0 ? text : [text, `The hub did not take ${grouped(refused)}: see below.`].join(' ');
  switch (reach.state) {
    case 'alone':
      return 'The record is on this device only.';
    case 'shut out':
      return `${reach.message} What is on this device stays here.`;
    case 'catching up': {
      const { progress } = reach;
      if (progress === null) return told('Catching up with the hub.');
      const verb =
        progress.phase === 'sending' ? /* @wc-include */ 'sent' : /* @wc-include */ 'received';
      return told(`Catching up: ${grouped(progress.done)} of ${grouped(progress.of)} ${verb}.`);
    }
    case 'up to date':
      return told(waiting === 0 ? 'Up to date with the hub.' : `${held}; it goes out now.`);
    case 'waiting':
      return told(`${reach.problem.message} ${held}; tried again by itself.`);
  }
}

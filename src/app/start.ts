import { mount } from 'svelte';
import type { Language } from '../words/languages.ts';
import Root from './screens/shell/Root.svelte';
import { openApp } from './wiring/open-app.ts';

/** Draws the app into the page. The words of the language must have been loaded before. */
export function start(language: Language): void {
  const target = document.getElementById('app');
  if (target === null) throw new Error('index.html has no element with the id "app".');
  document.getElementById('opening')?.remove();
  mount(Root, { target, props: { app: openApp(language) } });
}

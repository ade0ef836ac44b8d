import { mount } from 'svelte';
import Root from './screens/shell/Root.svelte';
import { openApp } from './wiring/open-app.ts';

const target = document.getElementById('app');
if (target === null) throw new Error('index.html has no element with the id "app".');
mount(Root, { target, props: { app: openApp() } });

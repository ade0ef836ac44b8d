/// <reference types="vite-plugin-pwa/client" />
import { registerSW } from 'virtual:pwa-register';
import type { Notices } from '../state/notices.svelte.ts';

/**
 * Keeps the app on the device for where there is no reception. A newer version waits until somebody
 * says so: nothing reloads in the middle of a watch.
 */
export function keepOnDevice(notices: Notices): void {
  const update = registerSW({
    onNeedRefresh: () => {
      notices.show({
        subject: 'version',
        tone: 'done',
        text: 'A newer version of Firstdark is on this device.',
        action: { label: 'Change to it', run: () => void update(true) },
      });
    },
    onOfflineReady: () => {
      notices.show({
        subject: 'version',
        tone: 'done',
        text: 'All of Firstdark is on this device now: it works without reception.',
      });
    },
  });
}

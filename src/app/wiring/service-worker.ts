import type { Notices } from '../state/notices.svelte.ts';
import { ownScript } from './own-script.ts';

/**
 * Keeps the app on the device for where there is no reception. A newer version waits until somebody
 * says so: nothing reloads in the middle of a watch. Only the built app has a service worker.
 */
export async function keepOnDevice(notices: Notices): Promise<void> {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const { Workbox } = await import('workbox-window');
  const worker = new Workbox(ownScript('sw.js'));
  worker.addEventListener('waiting', () => {
    // All tabs change together: the files of the old version go with it.
    worker.addEventListener('controlling', () => {
      location.reload();
    });
    notices.show({
      subject: 'version',
      tone: 'done',
      text: 'A newer version of Firstdark is on this device.',
      action: {
        label: 'Change to it',
        run: () => {
          worker.messageSkipWaiting();
        },
      },
    });
  });
  worker.addEventListener('installed', ({ isUpdate, isExternal }) => {
    if (isUpdate === true || isExternal === true) return;
    notices.show({
      subject: 'version',
      tone: 'done',
      text: 'All of Firstdark is on this device now: it works without reception.',
    });
  });
  await worker.register();
}

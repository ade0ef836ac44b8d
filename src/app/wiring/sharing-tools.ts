import { runningRecord } from '../../edges/store/finished-records.ts';
import type { DeviceSettings } from '../state/device-settings.svelte.ts';
import type { Joined, SharingTools } from '../state/sharing-tools.ts';

/** What speaks to a hub is read when there is one. */
const hubParts = async () => {
  const [{ BrowserReplicas }, { HttpHub }] = await Promise.all([
    import('../../edges/store/browser-replicas.ts'),
    import('../../edges/hub/http-hub.ts'),
  ]);
  return { replicas: new BrowserReplicas(), HttpHub };
};

const now_ms = (): number => Date.now();

/** Sharing by the hub that this page came from. */
export function sharingTools(settings: DeviceSettings): SharingTools {
  const address = new URL('./', location.href.split('#', 1)[0]).href;
  const record = async (): Promise<string | null> => {
    const running = await runningRecord('own');
    return running.ok ? running.value : null;
  };
  return {
    async place(clockGap) {
      const name = await record();
      if (name === null) return null;
      const { replicas, HttpHub } = await hubParts();
      const membership = await replicas.membership(name);
      if (membership === null) return null;
      const { key, ...member } = membership;
      const line = new HttpHub({ address: membership.address, key, now_ms, clockGap });
      return { member, line, shelf: replicas.shelf(name) };
    },
    async join(invitation, person): Promise<Joined> {
      const name = await record();
      if (name === null) return { ok: false, message: notKept };
      const { replicas, HttpHub } = await hubParts();
      const { device } = settings.now;
      const hub = new HttpHub({ address, key: null, now_ms });
      const joined = await hub.join(invitation, person, device, deviceLabel());
      if (!joined.ok) return { ok: false, message: joined.problem.message };
      const { key, ...rest } = joined.value;
      const member = { ...rest, address };
      try {
        await replicas.join({ ...member, key, record: name });
      } catch {
        return { ok: false, message: notKept };
      }
      return { ok: true, member };
    },
    async leave() {
      const name = await record();
      if (name === null) return;
      const { replicas } = await hubParts();
      await replicas.leave(name);
    },
    async alone(work) {
      if (!('locks' in navigator)) return work();
      return navigator.locks.request('firstdark exchange', { ifAvailable: true }, (lock) =>
        lock === null ? null : work(),
      );
    },
    onReception(back, gone) {
      const seen = (): void => {
        if (document.visibilityState === 'visible') back();
        else gone();
      };
      addEventListener('online', back);
      document.addEventListener('visibilitychange', seen);
      return () => {
        removeEventListener('online', back);
        document.removeEventListener('visibilitychange', seen);
      };
    },
    isSeen: () => document.visibilityState === 'visible',
    now_ms,
    luck: () => (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) / 2 ** 32,
  };
}

const notKept =
  'This browser could not keep the key, so this device was not joined for good. Free some space or allow this site to keep data, then ask for a new invitation.';

/** How the lead tells the devices of one person apart. */
function deviceLabel(): string {
  const isPhone = /Mobi|Android|iPhone/.test(navigator.userAgent);
  const system = /Android|iPhone|iPad|Windows|Mac OS X|Linux/.exec(navigator.userAgent)?.[0];
  return `${isPhone ? 'phone' : 'computer'}${system === undefined ? '' : `, ${system}`}`;
}

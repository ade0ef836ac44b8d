import type { StorageGauge } from '../state/storage-gauge.ts';

export const browserStorage: StorageGauge = {
  async ask() {
    const [persisted, estimate] = await Promise.all([
      navigator.storage.persisted(),
      navigator.storage.estimate(),
    ]);
    return {
      persisted,
      used_bytes: estimate.usage ?? null,
      quota_bytes: estimate.quota ?? null,
    };
  },
  persist: () => navigator.storage.persist(),
};

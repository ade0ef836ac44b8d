/** Whether all of the app is on this device. */
export type OfflineState = 'all here' | 'not yet' | 'not possible here';

type Workers = Pick<ServiceWorkerContainer, 'getRegistration'>;

/** Whether the page would open without reception. Never fails. */
export async function offlineState(
  workers: Workers | null = deviceWorkers(),
): Promise<OfflineState> {
  if (workers === null) return 'not possible here';
  try {
    const registration = await workers.getRegistration();
    return registration?.active?.state === 'activated' ? 'all here' : 'not yet';
  } catch {
    return 'not possible here';
  }
}

/** Missing on pages that are not served securely, and in some private windows. */
function deviceWorkers(): Workers | null {
  return typeof navigator !== 'undefined' && 'serviceWorker' in navigator
    ? navigator.serviceWorker
    : null;
}

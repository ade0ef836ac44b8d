/** How the browser keeps this page's data. */
export interface StorageState {
  /** Whether it promises not to clear them by itself when space runs short. */
  readonly persistence: 'persisted' | 'may be cleared' | 'not known';
  /** Bytes in use and bytes there may be; null where the browser does not say. */
  readonly used_bytes: number | null;
  readonly quota_bytes: number | null;
}

type Manager = Pick<StorageManager, 'estimate' | 'persist' | 'persisted'>;

/** How this page's data are kept, and how much room there is. Never fails. */
export async function storageState(
  manager: Manager | null = deviceStorage(),
): Promise<StorageState> {
  const persisted = await manager?.persisted().catch(() => null);
  const estimate = await manager?.estimate().catch(() => null);
  return {
    persistence: persistenceOf(persisted),
    used_bytes: estimate?.usage ?? null,
    quota_bytes: estimate?.quota ?? null,
  };
}

/** Asks the browser to keep this page's data until someone deletes them; some ask the person. */
export async function askToPersist(
  manager: Manager | null = deviceStorage(),
): Promise<StorageState['persistence']> {
  return persistenceOf(await manager?.persist().catch(() => null));
}

function persistenceOf(persisted: boolean | null | undefined): StorageState['persistence'] {
  if (persisted === null || persisted === undefined) return 'not known';
  return persisted ? 'persisted' : 'may be cleared';
}

/** Missing on pages that are not served securely, and in older browsers. */
function deviceStorage(): Manager | null {
  return typeof navigator !== 'undefined' && 'storage' in navigator ? navigator.storage : null;
}

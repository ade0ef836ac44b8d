/** How safe and how full the device's storage for this app is. */
export interface StorageRoom {
  readonly persistence: 'persisted' | 'may be cleared' | 'not known';
  /** Null where the browser does not say. */
  readonly used_bytes: number | null;
  readonly quota_bytes: number | null;
}

export interface StorageGauge {
  ask(): Promise<StorageRoom>;
  /** Asks the browser to keep the data until somebody erases them, and says whether it will. */
  persist(): Promise<StorageRoom['persistence']>;
}

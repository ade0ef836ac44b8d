/** How safe and how full the device's storage for this app is; null where the browser does not say. */
export interface StorageState {
  /** True: the browser will not clear it on its own. */
  readonly persisted: boolean | null;
  readonly used_bytes: number | null;
  readonly quota_bytes: number | null;
}

export interface StorageGauge {
  ask(): Promise<StorageState>;
  /** Asks the browser to keep the data; true when it will. */
  persist(): Promise<boolean>;
}

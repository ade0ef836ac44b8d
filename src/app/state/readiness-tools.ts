/** What the device tells of itself before an evening on the beach. */
export interface ReadinessTools {
  offline(): Promise<'all here' | 'not yet' | 'not possible here'>;
  /** 0 to 1; null where the browser does not say. */
  battery(): Promise<number | null>;
}

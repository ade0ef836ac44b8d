import type { Locator, Page } from 'playwright-core';

/** What journeys ask of an element, in Playwright's words; every engine answers them. */
export interface JourneyLocator extends Pick<
  Locator,
  | 'allTextContents'
  | 'boundingBox'
  | 'click'
  | 'count'
  | 'evaluate'
  | 'evaluateAll'
  | 'fill'
  | 'getAttribute'
  | 'hover'
  | 'innerText'
  | 'inputValue'
  | 'isDisabled'
  | 'isVisible'
  | 'screenshot'
  | 'scrollIntoViewIfNeeded'
  | 'selectOption'
  | 'setInputFiles'
  | 'textContent'
  | 'waitFor'
> {
  filter(options: LocatorFilter): JourneyLocator;
  first(): JourneyLocator;
  last(): JourneyLocator;
  nth(index: number): JourneyLocator;
  or(other: JourneyLocator): JourneyLocator;
  getByLabel(text: string | RegExp, options?: { exact?: boolean }): JourneyLocator;
  getByRole(role: Role, options?: RoleOptions): JourneyLocator;
  getByText(text: string | RegExp, options?: { exact?: boolean }): JourneyLocator;
  locator(css: string, options?: LocatorFilter): JourneyLocator;
}

export type Role = Parameters<Page['getByRole']>[0];

export interface RoleOptions {
  readonly name?: string | RegExp;
  readonly exact?: boolean;
}

export interface LocatorFilter {
  readonly hasText?: string | RegExp;
}

/** What journeys ask of a page, in Playwright's words; every engine answers them. */
export interface JourneyPage
  extends
    Pick<JourneyLocator, 'getByLabel' | 'getByRole' | 'getByText' | 'locator'>,
    Pick<
      Page,
      | 'close'
      | 'emulateMedia'
      | 'evaluate'
      | 'goto'
      | 'reload'
      | 'screenshot'
      | 'setViewportSize'
      | 'waitForTimeout'
    > {
  readonly keyboard: Pick<Page['keyboard'], 'press'>;
  readonly mouse: Pick<Page['mouse'], 'click' | 'down' | 'up' | 'wheel'>;
  addInitScript(script: () => void): Promise<unknown>;
  context(): JourneyDevice;
  waitForEvent(event: 'download'): Promise<JourneyDownload>;
}

export interface JourneyDownload {
  path(): Promise<string>;
  suggestedFilename(): string;
}

/** The device a page is on: its clock and its network. */
export interface JourneyDevice {
  readonly clock: { setSystemTime(time: string): Promise<void> };
  setOffline(offline: boolean): Promise<void>;
  close(): Promise<void>;
}

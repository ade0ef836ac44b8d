import type { JourneyLocator } from './journey-page.ts';

/**
 * Drags by the events that a browser gives for it, where a feigned mouse begins no drag: in Firefox by
 * WebDriver BiDi and in WebKitGTK. The real mouse is tried in Chromium.
 */
export async function dragByEvents(from: JourneyLocator, to: JourneyLocator): Promise<void> {
  await from.evaluate((element) => {
    const carried = new DataTransfer();
    Object.assign(window, { journeyCarried: carried });
    const options = { bubbles: true, cancelable: true, dataTransfer: carried };
    element.dispatchEvent(new DragEvent('dragstart', options));
  });
  await to.evaluate((element) => {
    const { journeyCarried } = window as unknown as { journeyCarried: DataTransfer };
    const options = { bubbles: true, cancelable: true, dataTransfer: journeyCarried };
    for (const kind of ['dragenter', 'dragover']) {
      element.dispatchEvent(new DragEvent(kind, options));
    }
    element.dispatchEvent(new DragEvent('drop', options));
  });
}

/**
 * What the fonts of systems paint in colours of their own, whatever the ink: pictographs, flags,
 * digits in a frame, and the room that Unicode keeps for pictographs to come.
 */
const PAINTED = /(?![#*0-9])\p{Emoji}|[\u{1f000}-\u{1faff}]|\ufe0f|\u20e3/u;

const isPainted = (node: Node): boolean => PAINTED.test(node.textContent ?? '');

/**
 * Lays red glass over the page (`base.css` says how it looks in the dark) before the first pictograph
 * is painted on it, and leaves it there: what people wrote comes back on other screens. Nearly no
 * record has any, and glass costs a slow phone something. Returns what ends the watch.
 */
export function glassForPictographs({ body, documentElement }: Document): () => void {
  const lay = (): void => {
    documentElement.dataset['glass'] = 'red';
  };
  if (isPainted(body)) lay();
  if (documentElement.dataset['glass'] !== undefined) return () => undefined;
  // Told of a change before it is painted.
  const watch = new MutationObserver((changes) => {
    const isHere = changes.some(({ type, target, addedNodes }) =>
      type === 'characterData' ? isPainted(target) : [...addedNodes].some(isPainted),
    );
    if (!isHere) return;
    lay();
    watch.disconnect();
  });
  watch.observe(body, { childList: true, characterData: true, subtree: true });
  return () => {
    watch.disconnect();
  };
}

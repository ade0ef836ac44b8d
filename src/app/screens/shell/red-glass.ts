/**
 * What the fonts of systems paint in colours of their own, whatever the ink: pictographs, flags,
 * digits in a frame, and the room that Unicode keeps for pictographs to come.
 */
const PAINTED = /(?![#*0-9])\p{Emoji}|[\u{1f000}-\u{1faff}]|\ufe0f|\u20e3/u;

const isPainted = (node: Node): boolean => PAINTED.test(node.textContent ?? '');

/**
 * Marks every element that says a pictograph, now and whenever one comes, before it is painted: the
 * styles show those of the dark screen through the filter in Root.svelte. Returns what ends it.
 */
export function glassOverPictographs({ body }: Document): () => void {
  layOver(body);
  const watch = new MutationObserver((changes) => {
    for (const { type, target, addedNodes } of changes) {
      if (type === 'characterData') layOver(target);
      else addedNodes.forEach(layOver);
    }
  });
  watch.observe(body, { childList: true, characterData: true, subtree: true });
  return () => {
    watch.disconnect();
  };
}

function layOver(top: Node): void {
  if (!isPainted(top)) return;
  const texts = top.ownerDocument?.createTreeWalker(top, NodeFilter.SHOW_TEXT);
  for (let node: Node | null = top; node !== null; node = texts?.nextNode() ?? null) {
    if (node.nodeType === Node.TEXT_NODE && isPainted(node)) {
      node.parentElement?.setAttribute('data-glass', '');
    }
  }
}

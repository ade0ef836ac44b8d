import type { AddressBar } from '../state/router.svelte.ts';

/** The page's own address, by what stands after `#`. */
export const hashAddress: AddressBar = {
  hash: () => location.hash,
  go(hash, how) {
    if (hash === location.hash) return;
    if (how === 'push') {
      location.hash = hash;
      return;
    }
    history.replaceState(null, '', hash);
    window.dispatchEvent(new HashChangeEvent('hashchange'));
  },
  watch(changed) {
    window.addEventListener('hashchange', changed);
    return () => {
      window.removeEventListener('hashchange', changed);
    };
  },
};

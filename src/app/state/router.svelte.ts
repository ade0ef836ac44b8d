import { createSubscriber } from 'svelte/reactivity';
import { hashOf, readRoute, type Route } from './route.ts';

/** The address bar, as far as the app reads and writes it. */
export interface AddressBar {
  hash(): string;
  go(hash: string, how: 'push' | 'replace'): void;
  watch(changed: () => void): () => void;
}

/** Where in the app somebody is, kept in the address so that Back works. */
export class Router {
  readonly #address: AddressBar;
  readonly #follow: () => void;

  constructor(address: AddressBar) {
    this.#address = address;
    this.#follow = createSubscriber((update) => address.watch(update));
  }

  get route(): Route {
    this.#follow();
    return readRoute(this.#address.hash());
  }

  go(route: Route): void {
    this.#address.go(hashOf(route), 'push');
  }

  /** As `go`, but Back does not return to where one is now. */
  replace(route: Route): void {
    this.#address.go(hashOf(route), 'replace');
  }
}

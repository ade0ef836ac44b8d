/** A text to be found, as it can be sent into a page. */
export type SentText =
  | { readonly kind: 'exact' | 'part'; readonly text: string }
  | { readonly kind: 'pattern'; readonly source: string; readonly flags: string };

/** One step from a set of elements to the next. */
export type Step =
  | { readonly by: 'css'; readonly css: string }
  | { readonly by: 'role'; readonly role: string; readonly name: SentText | null }
  | { readonly by: 'text'; readonly text: SentText }
  | { readonly by: 'label'; readonly text: SentText }
  | { readonly by: 'holding'; readonly text: SentText }
  | { readonly by: 'index'; readonly index: number }
  | { readonly by: 'or'; readonly other: readonly Step[] };

export interface RoleLibrary {
  queryAllByRole(
    within: HTMLElement,
    role: string,
    options: { name?: (name: string) => boolean },
  ): HTMLElement[];
}

/** What is put into a page to find elements as Playwright's locators do. */
export interface Queries {
  find(steps: readonly Step[]): Element[];
  isVisible(element: Element): boolean;
}

/** Runs in the page. Roles and accessible names are testing-library's; the rest is plain DOM. */
export function makeQueries(roles: RoleLibrary): Queries {
  const plain = (text: string | null): string =>
    (text ?? '')
      .replace(/[\u200b\u00ad]/g, '')
      .replace(/\s+/g, ' ')
      .trim();

  const matches = (wanted: SentText, text: string): boolean => {
    switch (wanted.kind) {
      case 'exact':
        return text === plain(wanted.text);
      case 'part':
        return text.toLowerCase().includes(plain(wanted.text).toLowerCase());
      case 'pattern':
        return new RegExp(wanted.source, wanted.flags).test(text);
    }
  };

  const isVisible = (element: Element): boolean => {
    const { width, height } = element.getBoundingClientRect();
    return width > 0 && height > 0 && element.checkVisibility({ visibilityProperty: true });
  };

  const inside = (root: Element | Document, css: string): Element[] => [
    ...root.querySelectorAll(css),
  ];

  /** CSS with Playwright's `:visible` at the end of any of its parts. */
  const byCss = (root: Element | Document, css: string): Element[] => {
    if (!css.includes(':visible')) return inside(root, css);
    const parts = css.split(/,(?![^(]*\))/).map((part) => part.trim());
    const found = parts.flatMap((part) => {
      const all = inside(root, part.replace(/:visible$/, ''));
      return part.endsWith(':visible') ? all.filter(isVisible) : all;
    });
    return [...new Set(found)];
  };

  const shownText = (element: Element): string =>
    /^(SCRIPT|STYLE|NOSCRIPT|TITLE|HEAD|META|LINK)$/.test(element.tagName)
      ? ''
      : plain(
          element instanceof HTMLInputElement && /^(submit|button)$/.test(element.type)
            ? element.value
            : element.textContent,
        );

  /** The innermost elements that hold the text. */
  const byText = (root: Element | Document, text: SentText): Element[] => {
    const holds = (element: Element): boolean => matches(text, shownText(element));
    return inside(root, '*').filter(
      (element) => holds(element) && ![...element.children].some(holds),
    );
  };

  const labelsOf = (element: Element): string[] => {
    const by = element.getAttribute('aria-labelledby');
    if (by !== null) {
      return [
        by
          .split(/\s+/)
          .map((id) => document.getElementById(id)?.textContent)
          .join(' '),
      ];
    }
    const own = element.getAttribute('aria-label');
    if (own !== null) return [own];
    const labels = 'labels' in element ? (element.labels as NodeListOf<Element> | null) : null;
    return [...(labels ?? [])].map(({ textContent }) => textContent);
  };

  const byLabel = (root: Element | Document, text: SentText): Element[] =>
    inside(
      root,
      'input, select, textarea, button, meter, output, [aria-label], [aria-labelledby]',
    ).filter((element) => labelsOf(element).some((label) => matches(text, plain(label))));

  const byRole = (root: Element | Document, role: string, name: SentText | null): Element[] =>
    roles.queryAllByRole(
      root instanceof Document ? root.documentElement : (root as HTMLElement),
      role,
      name === null ? {} : { name: (given) => matches(name, plain(given)) },
    );

  const inOrder = (elements: Iterable<Element>): Element[] =>
    [...new Set(elements)].sort((a, b) =>
      a.compareDocumentPosition(b) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1,
    );

  const step = (from: readonly (Element | Document)[], one: Step): (Element | Document)[] => {
    switch (one.by) {
      case 'css':
        return inOrder(from.flatMap((root) => byCss(root, one.css)));
      case 'role':
        return inOrder(from.flatMap((root) => byRole(root, one.role, one.name)));
      case 'text':
        return inOrder(from.flatMap((root) => byText(root, one.text)));
      case 'label':
        return inOrder(from.flatMap((root) => byLabel(root, one.text)));
      case 'holding':
        return from.filter((root) => root instanceof Element && matches(one.text, shownText(root)));
      case 'index': {
        const found = from.at(one.index);
        return found === undefined ? [] : [found];
      }
      case 'or':
        return inOrder([...(from as Element[]), ...find(one.other)]);
    }
  };

  const find = (steps: readonly Step[]): Element[] =>
    steps.reduce<(Element | Document)[]>(step, [document]) as Element[];

  return { find, isVisible };
}

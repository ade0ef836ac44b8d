/**
 * Runs in the page of an engine that cannot be told to show a page as it prints: rules for paper
 * become rules for the screen, and the other way round. Done twice, all is as it was.
 */
export function swapPaperAndScreen(): void {
  const swapped = (text: string): string =>
    text.replace(/\b(print|screen)\b/g, (medium) => (medium === 'print' ? 'screen' : 'print'));
  const turn = (rules: CSSRuleList): void => {
    for (const rule of rules) {
      if (rule instanceof CSSMediaRule) rule.media.mediaText = swapped(rule.media.mediaText);
      if (rule instanceof CSSGroupingRule) turn(rule.cssRules);
    }
  };
  for (const sheet of document.styleSheets) turn(sheet.cssRules);
}

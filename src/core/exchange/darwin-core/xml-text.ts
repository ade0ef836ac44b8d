/** A text as it stands in XML between tags or in quotation marks; control characters XML bars are left out. */
export function xmlText(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex -- these very characters are the ones XML 1.0 bars
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replaceAll('"', '&quot;')
  );
}

/** How long a browser may take to begin a download before its source is let go. */
const GRACE_MS = 60_000;

/** Offers bytes or text to be saved under a name. Nothing leaves the device. */
export function download(name: string, content: string | Uint8Array, mediaType: string): void {
  // A fresh copy: a Blob does not take bytes that lie in shared memory.
  const part = typeof content === 'string' ? content : new Uint8Array(content);
  const url = URL.createObjectURL(new Blob([part], { type: mediaType }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.hidden = true;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), GRACE_MS);
}

/** Where to join, and with what. */
export interface InvitationLink {
  /** The hub's address, with the closing slash. */
  readonly address: string;
  readonly invitation: string;
}

const INVITATION = /^fdi1_[A-Za-z0-9_-]{20,100}$/;
const PLACE = '#/join/';

/** The invitation in a link, or standing by itself; null when the text is neither. */
export function readInvitation(text: string): string | null {
  const bare = text.trim();
  return INVITATION.test(bare) ? bare : (readInvitationLink(bare)?.invitation ?? null);
}

/**
 * Reads an invitation as a lead sends it: a link whose part after # holds the secret, which therefore
 * never travels in a path. Null when it is none.
 */
export function readInvitationLink(text: string): InvitationLink | null {
  const at = text.trim().indexOf(PLACE);
  if (at === -1) return null;
  const invitation = text.trim().slice(at + PLACE.length);
  if (!INVITATION.test(invitation)) return null;
  try {
    const url = new URL(text.trim().slice(0, at));
    if (url.protocol !== 'https:' && url.protocol !== 'http:') return null;
    return { address: new URL('./', url).href, invitation };
  } catch {
    return null;
  }
}

/**
 * The link that a lead hands on. The secret stands behind #, which a browser never sends, so that it
 * is in no path and no log. `address` has its closing slash.
 */
export function invitationLink(address: string, invitation: string): string {
  return `${address}#/join/${invitation}`;
}

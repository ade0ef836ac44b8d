import { addProgramme, programmesOf } from './access/programmes.ts';
import { invite, usualLife_h } from './access/invitations.ts';
import type { Database } from './database/database.ts';
import { invitationLink } from './invitation-link.ts';

/** A link by which the lead of a programme joins, while it has none. */
export interface LeadWanted {
  readonly programme: string;
  readonly link: string;
  readonly expires_h: number;
}

/**
 * Opens the first programme of a hub when there is none yet, and invites a lead into every programme
 * that has no device of one.
 */
export async function leadsWanted(
  database: Database,
  firstProgramme: string,
  address: string,
): Promise<readonly LeadWanted[]> {
  if ((await programmesOf(database)).length === 0) await addProgramme(database, firstProgramme);
  const wanted: LeadWanted[] = [];
  for (const { id, name, leads } of await programmesOf(database)) {
    if (leads > 0) continue;
    const invited = await invite(database, id, {
      role: 'lead',
      teams: [],
      person: null,
      expires_h: usualLife_h,
      madeBy: null,
      missingTeams: 'refuse',
    });
    if (!invited.ok) continue;
    const link = invitationLink(address, invited.value.invitation);
    wanted.push({ programme: name, link, expires_h: usualLife_h });
  }
  return wanted;
}

import type { Hub, HubAnswer, HubProblem } from '../../core/replication/hub.ts';
import type { ReplicaShelf } from '../../core/replication/replica-shelf.ts';

export type HubRole = 'lead' | 'sitter' | 'permit holder' | 'reader';

/** As whom a device is known to its hub, without the key. */
export interface Member {
  readonly address: string;
  readonly programme: { readonly id: string; readonly name: string };
  readonly person: string;
  readonly device: string;
  readonly role: HubRole;
  readonly teams: readonly string[];
}

/** A device that the hub lets in, or no more. Times are ISO 8601 texts. */
export interface SharedDevice {
  readonly id: string;
  readonly person: string;
  readonly label: string | null;
  readonly role: HubRole;
  readonly teams: readonly string[];
  readonly joined: string;
  readonly last_seen: string | null;
  readonly events_sent: number;
  readonly revoked: string | null;
}

export interface Invitation {
  readonly id: string;
  readonly link: string;
  readonly expires: string;
}

/** What the app asks of the hub of a member: the exchange, and what a lead may do. */
export interface HubLine extends Hub {
  changes(changed: () => void, signal: AbortSignal): Promise<HubProblem | null>;
  devices(): Promise<HubAnswer<readonly SharedDevice[]>>;
  revoke(device: string): Promise<HubAnswer<{ readonly events_readable: number }>>;
  teams(): Promise<HubAnswer<readonly string[]>>;
  invite(
    role: HubRole,
    teams: readonly string[],
    person: string | null,
    expires_h: number,
  ): Promise<HubAnswer<Invitation>>;
}

export type Joined =
  { readonly ok: true; readonly member: Member } | { readonly ok: false; readonly message: string };

/** A device's place at a hub: who it is there, the line to it, and what was exchanged. */
export interface Place {
  readonly member: Member;
  readonly line: HubLine;
  readonly shelf: ReplicaShelf;
}

/** What sharing needs from the device; the wiring gives it. */
export interface SharingTools {
  /** The place of the record that is open; null when it is on this device only. */
  place(clockGap: (gap_ms: number | null) => void): Promise<Place | null>;
  /** Joins with an invitation that was made for the hub this page came from. */
  join(invitation: string, person: string): Promise<Joined>;
  /** Forgets the key; the record stays. */
  leave(): Promise<void>;
  /** Does something while no other tab of this device does; null when another one is at it. */
  alone<Value>(work: () => Promise<Value>): Promise<Value | null>;
  /**
   * Calls `back` when there may be reception again, or the page is seen again, and `gone` when nobody
   * sees it any more; gives the way to stop.
   */
  onReception(back: () => void, gone: () => void): () => void;
  /** Whether anybody sees the page: nothing is asked of the network while nobody does. */
  isSeen(): boolean;
  now_ms(): number;
  /** In [0, 1). */
  luck(): number;
}

import type * as z from 'zod/mini';
import { usualLife_h } from '../../hub/access/invitations.ts';
import { Role } from '../../hub/access/role.ts';
import { knock } from '../../hub/operator/knock.ts';
import {
  DevicesDone,
  InviteDone,
  Order,
  ProgrammesDone,
  RevokeDone,
  operate,
} from '../../hub/operator/operate.ts';
import type { Outcome } from '../../hub/turned-away.ts';
import { needed, oneOf, readArguments } from './arguments.ts';
import { type CommandIo, WrongUsage } from './command.ts';
import { type HubPlace, hubPlace, openHubDatabase, placeOptions } from './open-hub-database.ts';

const common = {
  ...placeOptions,
  programme: { type: 'string' },
  json: { type: 'boolean' },
} as const;

/** One thing to have done by a hub, and how it is told. */
interface HubOrder {
  readonly read: (args: readonly string[]) => {
    readonly order: z.input<typeof Order>;
    readonly place: HubPlace;
    readonly isJson: boolean;
  };
  /** The text for the answer. */
  readonly told: (answer: unknown) => string;
}

/** What stands after `hub`, by its word. */
export const hubOrders: Readonly<Record<string, HubOrder>> = {
  invite: {
    read: (args) => {
      const options = {
        ...common,
        role: { type: 'string' },
        team: { type: 'string', multiple: true },
        person: { type: 'string' },
        expires: { type: 'string' },
        address: { type: 'string' },
      } as const;
      const { values } = readArguments(args, options, []);
      const order = {
        order: 'invite',
        programme: values.programme ?? null,
        role: oneOf(needed(values.role, 'role'), 'role', Role.options),
        teams: values.team ?? [],
        person: values.person ?? null,
        expires_h: values.expires === undefined ? usualLife_h : hoursOf(values.expires),
        address: values.address ?? null,
      } as const;
      return { order, place: hubPlace(values), isJson: values.json === true };
    },
    told: (answer) => `${InviteDone.parse(answer).link}\n`,
  },
  devices: {
    read: (args) => {
      const { values } = readArguments(args, common, []);
      const order = { order: 'devices', programme: values.programme ?? null } as const;
      return { order, place: hubPlace(values), isJson: values.json === true };
    },
    told: (answer) => DevicesDone.parse(answer).map(deviceLine).join('') || 'No device yet.\n',
  },
  revoke: {
    read: (args) => {
      const options = { ...placeOptions, reason: { type: 'string' }, json: common.json } as const;
      const { values, at } = readArguments(args, options, ['ID']);
      const order = { order: 'revoke', id: at[0] ?? '', reason: values.reason ?? null } as const;
      return { order, place: hubPlace(values), isJson: values.json === true };
    },
    told: (answer) => {
      const had = RevokeDone.parse(answer);
      const teams = had.teams.length === 0 ? 'no team of its own' : had.teams.join(', ');
      return `Revoked: ${had.person} (${had.role}; ${teams}). It could read ${had.events_readable} events and said that it has ${had.events_read}; it sent ${had.events_sent}. Last seen ${had.last_seen ?? 'never'}.\n`;
    },
  },
  programmes: {
    read: (args) => {
      const { values } = readArguments(args, { ...placeOptions, json: common.json }, []);
      return {
        order: { order: 'programmes' },
        place: hubPlace(values),
        isJson: values.json === true,
      };
    },
    told: programmesText,
  },
  'add-programme': {
    read: (args) => {
      const options = { ...placeOptions, json: common.json } as const;
      const { values, at } = readArguments(args, options, ['NAME']);
      const order = { order: 'add programme', name: at[0] ?? '' } as const;
      return { order, place: hubPlace(values), isJson: values.json === true };
    },
    told: programmesText,
  },
};

/** Has an order carried out: by the hub that runs on the folder, else on the record itself. */
export async function giveOrder(
  { read, told }: HubOrder,
  args: readonly string[],
  io: CommandIo,
): Promise<number> {
  const { order: given, place, isJson } = read(args);
  const order = Order.safeParse(given);
  if (!order.success) {
    const [first] = order.error.issues;
    throw new WrongUsage(`${first?.path.join('.') ?? ''}: ${first?.message ?? 'not readable'}.`);
  }
  const outcome = await carryOut(place, order.data);
  if (!outcome.ok) {
    io.err(`${outcome.no.message}\n`);
    return 1;
  }
  io.out(isJson ? `${JSON.stringify(outcome.value, null, 2)}\n` : told(outcome.value));
  return 0;
}

async function carryOut(place: HubPlace, order: Order): Promise<Outcome<unknown>> {
  const answered = place.kind === 'folder' ? await knock(place.folder, order) : null;
  if (answered !== null) return answered;
  const opened = await openHubDatabase(place);
  if (!opened.ok) {
    return { ok: false, no: { status: 503, code: 'closed', message: opened.message } };
  }
  try {
    return await operate(opened.database, order);
  } finally {
    await opened.close();
  }
}

const inHours: Readonly<Record<string, number>> = { h: 1, d: 24, w: 168 };

/** `90m` is too short to be of use; hours, days and weeks are read. */
function hoursOf(text: string): number {
  const [, count, unit] = /^(\d{1,4})([hdw])$/.exec(text) ?? [];
  const hours = Number(count) * (inHours[unit ?? ''] ?? Number.NaN);
  if (hours > 0) return hours;
  throw new WrongUsage(`--expires "${text}": expected hours, days or weeks, such as 2h or 7d.`);
}

function deviceLine(device: z.infer<typeof DevicesDone>[number]): string {
  const { id, programme, person, label, role, teams, last_seen, events_sent, revoked } = device;
  const what = [label, role, ...teams].filter((part) => part !== null).join(', ');
  const state = revoked === null ? `last seen ${last_seen ?? 'never'}` : `revoked ${revoked}`;
  return `${id}  ${programme}: ${person} (${what}), ${events_sent} sent, ${state}\n`;
}

function programmesText(answer: unknown): string {
  return ProgrammesDone.parse(answer)
    .map(({ name, devices, leads }) => `${name}: ${devices} devices, ${leads} of them of leads\n`)
    .join('');
}

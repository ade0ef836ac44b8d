import type { Command, CommandIo } from '../wiring/command.ts';
import { WrongUsage } from '../wiring/command.ts';
import { giveOrder, hubOrders } from '../wiring/hub-orders.ts';
import { serveHub } from '../wiring/serve-hub.ts';

/** The service that joins devices, and its keys. */
export const hub: Command = {
  name: 'hub',
  usage: `hub [--port N] [--data FOLDER | --database URL] …
  hub invite --role ROLE [--team T …] [--person NAME] [--expires 2d] [--programme NAME] [--json]
  hub devices [--programme NAME] [--json]
  hub revoke ID [--reason TEXT] [--json]
  hub programmes [--json]
  hub add-programme NAME [--json]`,
  summary:
    'serves one record to many devices; the others of these also take --data or --database (docs/hub.md)',
  run: async (args: readonly string[], io: CommandIo) => {
    const [word, ...rest] = args;
    if (word === undefined || word.startsWith('-')) return serveHub(args, io);
    const order = hubOrders[word];
    if (order !== undefined) return giveOrder(order, rest, io);
    const words = Object.keys(hubOrders).join(', ');
    throw new WrongUsage(`"hub ${word}" is nothing that a hub does. There are: ${words}.`);
  },
};

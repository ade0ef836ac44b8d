import { ListenAnalyst } from './listen-analyst.ts';
import type { ToAnalyst } from './listen-messages.ts';

const analyst = new ListenAnalyst((found) => {
  postMessage(found);
});

addEventListener('message', ({ data }: MessageEvent<ToAnalyst>) => {
  analyst.take(data);
});

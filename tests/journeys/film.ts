import { open } from 'node:fs/promises';
import type { Picture } from './png.ts';

/** What a camera of 640 x 480 would see of pictures of a screen, as uncompressed YUV4MPEG2 video. */
export async function film(pictures: readonly Picture[], path: string): Promise<void> {
  const [width, height] = [640, 480];
  const file = await open(path, 'w');
  await file.write(`YUV4MPEG2 W${width} H${height} F8:1 Ip A1:1 C420jpeg\n`);
  for (const picture of pictures) {
    const luma = Buffer.alloc(width * height);
    const [blue, red] = [
      Buffer.alloc((width * height) / 4, 128),
      Buffer.alloc((width * height) / 4, 128),
    ];
    const [left, top] = [(width - picture.width) >> 1, (height - picture.height) >> 1];
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const [px, py] = [x - left, y - top];
        const isInside = px >= 0 && py >= 0 && px < picture.width && py < picture.height;
        const at = isInside ? (py * picture.width + px) * picture.channels : -1;
        const r = at < 0 ? 0 : (picture.bytes[at] ?? 0);
        // Full-range BT.601 of a pixel that gives off red light alone (ITU-R BT.601, from memory).
        luma[y * width + x] = Math.round(0.299 * r);
        if (x % 2 === 0 && y % 2 === 0) {
          const half = (y >> 1) * (width >> 1) + (x >> 1);
          blue[half] = Math.round(128 - 0.168736 * r);
          red[half] = Math.min(255, Math.round(128 + 0.5 * r));
        }
      }
    }
    // Each code is held for two pictures.
    for (const _ of [1, 2]) {
      await file.write('FRAME\n');
      for (const plane of [luma, blue, red]) await file.write(plane);
    }
  }
  await file.close();
}

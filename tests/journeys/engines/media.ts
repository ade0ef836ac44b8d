import type { Picture } from '../png.ts';

/**
 * Runs in the page of an engine that cannot play a file as its microphone: `getUserMedia` gives a
 * real stream of the engine's own audio graph, with the file in it over and over.
 */
export function hearInstead(wav64: string): void {
  const bytes = Uint8Array.from(atob(wav64), (letter) => letter.charCodeAt(0));
  const hear = async (): Promise<MediaStream> => {
    const context = new AudioContext();
    const source = context.createBufferSource();
    source.buffer = await context.decodeAudioData(bytes.slice().buffer);
    source.loop = true;
    const ear = context.createMediaStreamDestination();
    source.connect(ear);
    source.start();
    await context.resume();
    return ear.stream;
  };
  // On the prototype: WebKit drops the object of one page that nobody holds, and what was put on it.
  if ('MediaDevices' in window) MediaDevices.prototype.getUserMedia = hear;
}

/**
 * Runs in the page of an engine whose microphone or camera is fed as above: the person has allowed
 * it before. Gives what it was told for any other permission.
 */
export function allow(names: readonly string[]): void {
  const ask = Permissions.prototype.query;
  Permissions.prototype.query = async function (asked) {
    const told = await ask.call(this, asked);
    if (names.includes(asked.name)) Object.defineProperty(told, 'state', { value: 'granted' });
    return told;
  };
}

/** One picture, eight bits a channel, RGBA, in base64. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly rgba64: string;
}

/** Pictures as a page can be given them. */
export function framesOf(pictures: readonly Picture[]): readonly Frame[] {
  return pictures.map(({ width, height, channels, bytes }) => {
    const rgba = Buffer.alloc(width * height * 4, 255);
    for (let pixel = 0; pixel < width * height; pixel++) {
      for (let part = 0; part < 3; part++) {
        rgba[pixel * 4 + part] = bytes[pixel * channels + part] ?? 0;
      }
    }
    return { width, height, rgba64: rgba.toString('base64') };
  });
}

/** Runs in the page of an engine that cannot play a film as its camera: a canvas is filmed instead. */
export function seeInstead(frames: readonly Frame[]): void {
  const see = (): Promise<MediaStream> => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [640, 480];
    const context = canvas.getContext('2d');
    let shown = 0;
    const show = (): void => {
      const frame = frames[shown++ % frames.length];
      if (frame === undefined || context === null) return;
      const { width, height, rgba64 } = frame;
      const rgba = Uint8ClampedArray.from(atob(rgba64), (letter) => letter.charCodeAt(0));
      context.fillStyle = 'black';
      context.fillRect(0, 0, 640, 480);
      context.putImageData(
        new ImageData(rgba, width, height),
        (640 - width) / 2,
        (480 - height) / 2,
      );
    };
    show();
    setInterval(show, 250);
    return Promise.resolve(canvas.captureStream(8));
  };
  // On the prototype: WebKit drops the object of one page that nobody holds, and what was put on it.
  if ('MediaDevices' in window) MediaDevices.prototype.getUserMedia = see;
}

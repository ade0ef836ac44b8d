import type { CameraPicture } from './read-code.ts';
import { type Leave, leaveFor } from './leave.ts';

type Problem = 'refused' | 'no camera' | 'not possible here' | 'failed';

type Opened =
  { readonly ok: true; close(): void } | { readonly ok: false; readonly problem: Problem };

/** Pictures a second: the codes on the other screen change more slowly. */
const picturesASecond = 8;

/** Whether the camera may be used without a question. Never fails, and asks nothing. */
export function cameraLeave(): Promise<Leave> {
  if (!hasCamera()) return Promise.resolve('refused');
  return leaveFor('camera', navigator.permissions);
}

/** Opens the camera at the back and hands over what it sees. Nothing is kept of it. */
export async function openCamera(
  seen: (picture: CameraPicture) => void,
  ended: () => void,
): Promise<Opened> {
  if (!hasCamera()) return { ok: false, problem: 'not possible here' };
  let stream: MediaStream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({
      video: { facingMode: 'environment', width: { ideal: 1280 }, height: { ideal: 720 } },
    });
  } catch (error) {
    return { ok: false, problem: problemOf(error) };
  }
  const video = document.createElement('video');
  video.muted = true;
  video.playsInline = true;
  video.srcObject = stream;
  const canvas = document.createElement('canvas');
  const drawing = canvas.getContext('2d', { willReadFrequently: true });
  const timer = setInterval(() => {
    const [width, height] = [video.videoWidth, video.videoHeight];
    if (width === 0 || drawing === null || document.visibilityState !== 'visible') return;
    canvas.width = width;
    canvas.height = height;
    drawing.drawImage(video, 0, 0);
    seen(drawing.getImageData(0, 0, width, height));
  }, 1000 / picturesASecond);
  const close = (): void => {
    clearInterval(timer);
    for (const track of stream.getTracks()) track.stop();
    video.srcObject = null;
  };
  for (const track of stream.getTracks()) {
    track.addEventListener('ended', () => {
      close();
      ended();
    });
  }
  try {
    await video.play();
  } catch {
    close();
    return { ok: false, problem: 'failed' };
  }
  return { ok: true, close };
}

const hasCamera = (): boolean =>
  typeof navigator !== 'undefined' &&
  'mediaDevices' in navigator &&
  'getUserMedia' in navigator.mediaDevices;

function problemOf(error: unknown): Problem {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'refused';
  return name === 'NotFoundError' || name === 'OverconstrainedError' ? 'no camera' : 'failed';
}

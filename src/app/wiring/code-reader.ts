import { cameraLeave, openCamera } from '../../edges/device/camera.ts';
import { readCode } from '../../edges/device/read-code.ts';
import type { CodeReader } from '../state/code-reader.ts';

/** Codes by the device's camera. */
export const codeReader: CodeReader = { leave: cameraLeave, open: openCamera, read: readCode };

/** What the camera sees: four bytes a pixel, red, green, blue, opacity. */
export interface CameraPicture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

export type CameraOpened =
  | { readonly ok: true; close(): void }
  | {
      readonly ok: false;
      readonly problem: 'refused' | 'no camera' | 'not possible here' | 'failed';
    };

/** Reads codes from another phone's screen by the camera. */
export interface CodeReader {
  /** Whether the camera may be used without a question, which would be white. */
  leave(): Promise<'given' | 'to be asked' | 'refused' | 'not known'>;
  open(seen: (picture: CameraPicture) => void, ended: () => void): Promise<CameraOpened>;
  /** The text of a code in a picture; null when there is none to be read. */
  read(picture: CameraPicture): string | null;
}

import { expect, test } from 'vitest';
import { cropped, notRed, type Picture, readPng, writePng } from './png.ts';

/** Three by two pixels of which one gives off blue light. */
const picture: Picture = {
  width: 3,
  height: 2,
  channels: 3,
  bytes: Uint8Array.from([255, 0, 0, 0, 0, 0, 9, 0, 0, 1, 0, 0, 2, 0, 0, 3, 0, 7]),
};

test('a picture that is written as a PNG is read as it was', () => {
  expect(readPng(writePng(picture))).toEqual(picture);
});

test('a part of a picture has the pixels that were there', () => {
  const part = cropped(picture, { x: 1, y: 1, width: 2, height: 1 });
  expect([...part.bytes]).toEqual([2, 0, 0, 3, 0, 7]);
  expect(notRed(part)).toEqual(['1,0 rgb(3 0 7)']);
});

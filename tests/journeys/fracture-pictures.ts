import type { Page } from 'playwright';
import type { Place } from './finger.ts';

/** What is drawn: the borders of a section and of the final zone in it, in dots of a picture of that size. */
export interface DrawnFracture {
  readonly width: number;
  readonly height: number;
  readonly section: readonly Place[];
  readonly final: readonly Place[];
}

/** So many corners that a border drawn by them is round. */
const FINE = 360;

export interface Ellipse {
  readonly x: number;
  readonly y: number;
  readonly long: number;
  readonly short: number;
  /** Of the long axis, clockwise as seen, radians. */
  readonly turn: number;
}

export function ellipse({ x, y, long, short, turn }: Ellipse): readonly Place[] {
  return Array.from({ length: FINE }, (_, i) => {
    const [u, v] = [long * Math.cos((2 * Math.PI * i) / FINE), short * Math.sin((2 * Math.PI * i) / FINE)];
    return { x: x + u * Math.cos(turn) - v * Math.sin(turn), y: y + u * Math.sin(turn) + v * Math.cos(turn) };
  });
}

export function round({ x, y, radius }: { readonly x: number; readonly y: number; readonly radius: number }): readonly Place[] {
  return ellipse({ x, y, long: radius, short: radius, turn: 0 });
}

/** The picture as a JPEG of the browser's own making. */
export async function drawJpeg(page: Page, drawn: DrawnFracture): Promise<Buffer> {
  const base64 = await page.evaluate(({ width, height, section, final }) => {
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('no canvas');
    const area = (colour: string, border: readonly { x: number; y: number }[]): void => {
      context.fillStyle = colour;
      context.beginPath();
      for (const { x, y } of border) context.lineTo(x, y);
      context.fill();
    };
    context.fillStyle = '#303a44';
    context.fillRect(0, 0, width, height);
    area('#b9b4aa', section);
    area('#5f5a52', final);
    context.fillStyle = '#f4f0e4';
    context.fillRect(20, height - 50, width - 40, 20);
    return canvas.toDataURL('image/jpeg', 0.9).split(',')[1] ?? '';
  }, drawn);
  return Buffer.from(base64, 'base64');
}

/** A word that stands where a camera writes a place. */
export const PLACE = 'GPSLatitude-54.3217N';

/** The picture as a camera held on its side writes it: to be turned by a quarter to the right, with a place. @source EXIF 2.3 (CIPA DC-008), tags 0x0112 and 0x8825 */
export function asFromCamera(jpeg: Buffer): Buffer {
  const entry = (tag: number, type: number, count: number, value: number): readonly number[] =>
    [tag >> 8, tag & 255, 0, type, 0, 0, 0, count, ...(type === 3 ? [value >> 8, value & 255, 0, 0] : [0, 0, value >> 8, value & 255])];
  const place = Buffer.from(`${PLACE}\0`, 'latin1');
  const tiff = Buffer.concat([
    Buffer.from([0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 2, ...entry(0x0112, 3, 1, 6), ...entry(0x010e, 2, place.length, 38), 0, 0, 0, 0]),
    place,
  ]);
  const payload = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const length = payload.length + 2;
  return Buffer.concat([jpeg.subarray(0, 2), Buffer.from([0xff, 0xe1, length >> 8, length & 255]), payload, jpeg.subarray(2)]);
}

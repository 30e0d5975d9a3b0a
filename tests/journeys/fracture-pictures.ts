import type { Page } from 'playwright';

/** What is drawn: a round section with a round final zone in it, in dots of a picture of that size. */
export interface DrawnFracture {
  readonly width: number;
  readonly height: number;
  readonly section: { readonly x: number; readonly y: number; readonly radius: number };
  readonly final: { readonly x: number; readonly y: number; readonly radius: number };
}

/** The picture as a JPEG of the browser's own making. */
export async function drawJpeg(page: Page, drawn: DrawnFracture): Promise<Buffer> {
  const base64 = await page.evaluate(({ width, height, section, final }) => {
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('no canvas');
    const disc = (colour: string, { x, y, radius }: { x: number; y: number; radius: number }): void => {
      context.fillStyle = colour;
      context.beginPath();
      context.arc(x, y, radius, 0, 2 * Math.PI);
      context.fill();
    };
    context.fillStyle = '#303a44';
    context.fillRect(0, 0, width, height);
    disc('#b9b4aa', section);
    disc('#5f5a52', final);
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

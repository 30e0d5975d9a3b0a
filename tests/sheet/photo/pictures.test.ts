import { describe, expect, it } from 'vitest';
import { MOST_DOTS, readPictureHeader } from '../../../src/sheet/photo/picture-header.ts';
import { pictureText, readPicture, withoutMetadata } from '../../../src/sheet/photo/stored-picture.ts';
import { exifSegment, JPEG, PNG, WEBP_HEAD, WEBP_LENGTH, withSegment } from './small-pictures.ts';

const code = (bytes: Uint8Array): string => {
  const header = readPictureHeader(bytes);
  return header.ok ? `${header.value.format} ${header.value.width}x${header.value.height}` : header.problem.code;
};
const join = (...parts: (Uint8Array | readonly number[])[]): Uint8Array => Uint8Array.from(parts.flatMap((part) => [...part]));
const ascii = (text: string): number[] => [...text].map((character) => character.charCodeAt(0));
const latin = (bytes: Uint8Array): string => String.fromCharCode(...bytes);
const webp = (): Uint8Array => join(WEBP_HEAD, new Uint8Array(WEBP_LENGTH - WEBP_HEAD.length));
const gif = (pictures: number): Uint8Array => {
  const one = [0x21, 0xf9, 4, 0, 10, 0, 0, 0, 0x2c, 0, 0, 0, 0, 3, 0, 2, 0, 0, 2, 2, 0x4c, 1, 0];
  return join(ascii('GIF89a'), [3, 0, 2, 0, 0x80, 0, 0, 0, 0, 0, 255, 255, 255], ...Array.from({ length: pictures }, () => one), [0x3b]);
};

describe('what a file says of its picture', () => {
  it('is read from whole pictures of each format', () => {
    expect(code(JPEG)).toBe('jpeg 24x16');
    expect(code(PNG)).toBe('png 24x16');
    expect(code(webp())).toBe('webp 24x16');
    expect(code(gif(1))).toBe('gif 3x2');
  });

  it('is read where a phone put a thumbnail before the picture and a film behind it', () => {
    const film = ascii('ftypmp42 and a short film');
    expect(code(join(withSegment(JPEG, exifSegment(latin(JPEG))), film))).toBe('jpeg 24x16');
  });

  it('is refused where the picture was cut off, at any place', () => {
    for (let length = 3; length < JPEG.length; length += 7) expect(code(JPEG.subarray(0, length))).toBe('picture-cut-off');
    for (let length = 20; length < PNG.length; length += 5) expect(code(PNG.subarray(0, length))).toBe('picture-cut-off');
    expect(code(webp().subarray(0, WEBP_LENGTH - 5))).toBe('picture-cut-off');
    expect(code(gif(1).subarray(0, 20))).toBe('picture-cut-off');
  });

  it('is refused where it is no picture, or one that moves, or one that phones keep to themselves', () => {
    expect(code(new Uint8Array())).toBe('picture-empty');
    expect(code(join(ascii('<svg xmlns="http://www.w3.org/2000/svg"/>')))).toBe('picture-unknown');
    expect(code(join(ascii('%PDF-1.7 and so on')))).toBe('picture-unknown');
    expect(code(join([0, 0, 0, 24], ascii('ftypheic'), new Uint8Array(40)))).toBe('picture-phone-format');
    expect(code(gif(2))).toBe('picture-moves');
    const moving = webp();
    moving[20] = (moving[20] ?? 0) | 2;
    expect(code(moving)).toBe('picture-moves');
    const control = [0, 0, 0, 8, ...ascii('acTL'), 0, 0, 0, 2, 0, 0, 0, 0, 0, 0, 0, 0];
    expect(code(join(PNG.subarray(0, 33), control, PNG.subarray(33)))).toBe('picture-moves');
  });

  it('is refused before anything decodes it where it has too many dots', () => {
    const vast = PNG.slice();
    vast.set([0x00, 0x01, 0x86, 0xa0, 0x00, 0x01, 0x86, 0xa0], 16);
    expect(100_000 ** 2).toBeGreaterThan(MOST_DOTS);
    expect(code(vast)).toBe('picture-too-many-dots');
  });
});

describe('a picture in a document', () => {
  it('holds nothing of what a camera wrote beside the dots', () => {
    const secrets = [exifSegment('GPS 47 22 N 8 32 E'), join([0xff, 0xfe, 0, 14], ascii('bench camera')), join([0xff, 0xed, 0, 11], ascii('owner: K.'))];
    const told = secrets.reduce(withSegment, JPEG);
    const bare = withoutMetadata(join(told, ascii('GPS behind the end')));
    expect(latin(told)).toMatch(/GPS/);
    expect(bare === undefined ? '' : latin(bare)).not.toMatch(/GPS|bench camera|owner|JFIF/);
    expect(bare === undefined ? '' : code(bare)).toBe('jpeg 24x16');
  });

  it('comes back from its text with its size, and without metadata even where the text had some', () => {
    const text = pictureText(JPEG) ?? '';
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(120);
    const picture = readPicture(text);
    expect(picture).toMatchObject({ ok: true, value: { width: 24, height: 16, base64: text.replace(/\n/g, '') } });
    const told = btoa(latin(withSegment(JPEG, exifSegment('GPS 47 22 N'))));
    expect(readPicture(told)).toEqual(picture);
  });

  it('is refused where its text is anything else', () => {
    for (const text of ['', 'x', 'data:image/png;base64,AAAA', '"><script>', btoa(latin(PNG)), btoa(latin(JPEG.subarray(0, 90))), '====', 'A_B-']) {
      expect(readPicture(text), text).toMatchObject({ ok: false, problem: { code: 'picture-unreadable' } });
    }
  });
});

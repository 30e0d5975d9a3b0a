import { fail, ok, type Result } from '../../core/problem/index.ts';
import { readGif, readPng, readWebp, type FoundPicture } from './other-formats.ts';
import { brokenOff, emptyFile, moves, noPicture, phoneFormat, tooManyBytes, tooManyDots } from './picture-problems.ts';

/** What the first bytes of a picture file say of it, before anything decodes it. */
interface PictureHeader {
  readonly format: 'jpeg' | 'png' | 'webp' | 'gif';
  /** Dots across and down, as stored: a JPEG may ask to be turned. */
  readonly width: number;
  readonly height: number;
}

/** A phone's best camera gives about 100 million dots in 30 MB; more would fill a phone's memory when decoded. */
export const MOST_DOTS = 120e6;
const MOST_BYTES = 60e6;

/**
 * Looks at a file's bytes before a decoder does. A picture that is no picture, too large, cut off or moving is refused here,
 * with what to do instead.
 * Problems: `picture-empty`, `picture-unknown`, `picture-phone-format`, `picture-too-many-dots`, `picture-cut-off`, `picture-moves`.
 */
export function readPictureHeader(bytes: Uint8Array): Result<PictureHeader> {
  if (bytes.length === 0) return fail(emptyFile());
  if (bytes.length > MOST_BYTES) return fail(tooManyBytes(bytes.length, MOST_BYTES));
  const format = formatOf(bytes);
  if (format === 'heif') return fail(phoneFormat());
  if (format === undefined) return fail(noPicture());
  const found = READERS[format](bytes);
  if (found === undefined || found.width < 1 || found.height < 1) return fail(brokenOff());
  if (found.width * found.height > MOST_DOTS) return fail(tooManyDots(found.width, found.height, MOST_DOTS));
  if (!found.isWhole) return fail(brokenOff());
  if (found.isMoving) return fail(moves());
  return ok({ format, width: found.width, height: found.height });
}

const READERS = { jpeg: readJpeg, png: readPng, webp: readWebp, gif: readGif };

function formatOf(bytes: Uint8Array): PictureHeader['format'] | 'heif' | undefined {
  const text = (start: number, end: number): string => String.fromCharCode(...bytes.subarray(start, end));
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return 'jpeg';
  if (text(0, 8) === '\x89PNG\r\n\x1a\n') return 'png';
  if (text(0, 4) === 'RIFF' && text(8, 12) === 'WEBP') return 'webp';
  if (/^GIF8[79]a/.test(text(0, 6))) return 'gif';
  if (text(4, 8) === 'ftyp' && /^(?:hei|hev|mif|msf|avi)/.test(text(8, 12))) return 'heif';
  return undefined;
}

/** A piece of a JPEG: a marker with what its segment holds and, after the start of a scan, the coded dots up to the next marker. */
interface JpegSegment {
  readonly marker: number;
  readonly start: number;
  readonly end: number;
}

const START_OF_SCAN = 0xda;
const END_OF_IMAGE = 0xd9;

/**
 * The pieces of a JPEG from its first marker to the end of the image, the end marker last; undefined where they break off
 * before it. What a file holds behind the end is none of them.
 * @source ITU-T T.81 (JPEG), annex B
 */
export function jpegSegments(bytes: Uint8Array): readonly JpegSegment[] | undefined {
  const segments: JpegSegment[] = [];
  let at = 2;
  while (at + 2 <= bytes.length) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === END_OF_IMAGE) {
      segments.push({ marker, start: at, end: at + 2 });
      return segments;
    }
    const length = ((bytes[at + 2] ?? 0) << 8) | (bytes[at + 3] ?? 0);
    if (length < 2 || at + 2 + length > bytes.length) return undefined;
    const end = marker === START_OF_SCAN ? endOfScan(bytes, at + 2 + length) : at + 2 + length;
    segments.push({ marker, start: at, end });
    at = end;
  }
  return undefined;
}

/** Coded dots end at a marker that is no stuffed zero and no restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  let at = bytes.indexOf(0xff, from);
  while (at >= 0 && at + 1 < bytes.length) {
    const next = bytes[at + 1] ?? 0;
    if (next !== 0 && next !== 0xff && (next < 0xd0 || next > 0xd7)) return at;
    at = bytes.indexOf(0xff, at + 1);
  }
  return bytes.length;
}

/** Markers of frame headers; C4, C8 and CC among them mean something else. */
const isFrame = (marker: number): boolean => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);

function readJpeg(bytes: Uint8Array): FoundPicture | undefined {
  const segments = jpegSegments(bytes);
  const frame = segments?.find(({ marker }) => isFrame(marker));
  if (segments === undefined || frame === undefined || frame.end - frame.start < 9) return undefined;
  const at = (place: number): number => ((bytes[frame.start + place] ?? 0) << 8) | (bytes[frame.start + place + 1] ?? 0);
  return { height: at(5), width: at(7), isWhole: segments.some(({ marker }) => marker === START_OF_SCAN), isMoving: false };
}

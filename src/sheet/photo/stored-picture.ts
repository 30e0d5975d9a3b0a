import { fail, ok, type Result } from '../../core/problem/index.ts';
import { rememberedTexts } from '../../core/remembered/index.ts';
import { readBase64, writeBase64 } from './base64.ts';
import { jpegSegments, readPictureHeader } from './picture-header.ts';
import { storedTooLarge, storedUnreadable } from './picture-problems.ts';

/** A picture as a document holds it: JPEG without anything but what its dots need. */
export interface StoredPicture {
  readonly width: number;
  readonly height: number;
  /** Base64 without line breaks. */
  readonly base64: string;
}

/** Longest side of a picture that the page writes, dots: a document that holds a larger one did not get it here, and showing it may take all memory. */
export const LONGEST_SIDE = 1600;

const LINE = 120;

/** Base64 in lines, as `picture` takes it. The JPEG goes without what a camera writes beside the dots: place, time, owner, thumbnail. */
export function pictureText(jpeg: Uint8Array): string | undefined {
  const bare = withoutMetadata(jpeg);
  if (bare === undefined) return undefined;
  const base64 = writeBase64(bare);
  const lines = Array.from({ length: Math.ceil(base64.length / LINE) }, (_, i) => base64.slice(i * LINE, (i + 1) * LINE));
  return lines.map((line) => `${line}\n`).join('');
}

/**
 * The picture of a document's text, the last few of which are remembered: a mark set in a picture leaves its text as it was.
 * Whatever its bytes hold beside the dots does not come along. Problems: `picture-unreadable`, `picture-not-from-here`.
 */
export const readPicture = rememberedTexts(12, readAnew);

function readAnew(text: string): Result<StoredPicture> {
  const bytes = readBase64(text.replace(/\s+/g, ''));
  if (bytes === undefined) return fail(storedUnreadable());
  const header = readPictureHeader(bytes);
  const bare = withoutMetadata(bytes);
  if (!header.ok || header.value.format !== 'jpeg' || bare === undefined) return fail(storedUnreadable());
  const { width, height } = header.value;
  if (Math.max(width, height) > LONGEST_SIDE) return fail(storedTooLarge(width, height, LONGEST_SIDE));
  return ok({ width, height, base64: writeBase64(bare) });
}

/**
 * A JPEG's tables, frame and scans alone: application segments (EXIF with place and time, colour profiles, thumbnails),
 * comments, and what follows the picture's end are left out. Undefined where the bytes are no whole JPEG.
 * @source ITU-T T.81 (JPEG), table B.1: APPn are FFE0 to FFEF, COM is FFFE
 */
export function withoutMetadata(jpeg: Uint8Array): Uint8Array | undefined {
  const segments = jpegSegments(jpeg);
  if (segments === undefined) return undefined;
  // APP14 says how colours are coded: without it a few pictures would change theirs.
  const kept = segments.filter(({ marker }) => (marker < 0xe0 || marker > 0xef || marker === 0xee) && marker !== 0xfe);
  const parts = [jpeg.subarray(0, 2), ...kept.map(({ start, end }) => jpeg.subarray(start, end))];
  const bare = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bare.set(part, at);
    at += part.length;
  }
  return bare;
}

import { fail, ok, type Result } from '../../core/problem/index.ts';
import { jpegSegments, readPictureHeader } from './picture-header.ts';
import { storedUnreadable } from './picture-problems.ts';

/** A picture as a document holds it: JPEG without anything but what its dots need. */
export interface StoredPicture {
  readonly width: number;
  readonly height: number;
  /** Base64 without line breaks. */
  readonly base64: string;
}

const LINE = 120;

/** Base64 in lines, as `picture` takes it. The JPEG goes without what a camera writes beside the dots: place, time, owner, thumbnail. */
export function pictureText(jpeg: Uint8Array): string | undefined {
  const bare = withoutMetadata(jpeg);
  if (bare === undefined) return undefined;
  let binary = '';
  for (let at = 0; at < bare.length; at += 0x8000) binary += String.fromCharCode(...bare.subarray(at, at + 0x8000));
  return (btoa(binary).match(new RegExp(`.{1,${LINE}}`, 'g')) ?? []).map((line) => `${line}\n`).join('');
}

/** The picture of a document's text. Whatever its bytes hold beside the dots does not come along. Problem: `picture-unreadable`. */
export function readPicture(text: string): Result<StoredPicture> {
  const base64 = text.replace(/\s+/g, '');
  if (!/^[\w+/]+={0,2}$/.test(base64) || base64.length % 4 !== 0 || base64.includes('_')) return fail(storedUnreadable());
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  const header = readPictureHeader(bytes);
  if (!header.ok || header.value.format !== 'jpeg') return fail(storedUnreadable());
  const bare = pictureText(bytes);
  if (bare === undefined) return fail(storedUnreadable());
  const { width, height } = header.value;
  return ok({ width, height, base64: bare.replace(/\n/g, '') });
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

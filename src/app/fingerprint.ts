import { sha256 } from './sha-256.ts';

/** SHA-256 of a document's text in UTF-8, hexadecimal. */
export function fingerprintOf(text: string): string {
  return sha256(new TextEncoder().encode(text));
}

/** The first sixteen of its digits, for people to compare. */
export function fingerprintWords(fingerprint: string): string {
  return `fingerprint ${(fingerprint.slice(0, 16).match(/.{4}/g) ?? []).join(' ')}`;
}

/** What is said of a text that is not the one its file states; undefined where it is, or where the file states nothing. */
export function alteredWords(text: string, stated: string | undefined): string | undefined {
  if (stated === undefined || fingerprintOf(text) === stated) return undefined;
  return 'Its sheet was altered after it was taken away: it is not the one whose fingerprint the file states.';
}

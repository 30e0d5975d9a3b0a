/** SHA-256 of a document's text in UTF-8, hexadecimal; undefined where the browser reckons none. */
export async function fingerprintOf(text: string): Promise<string | undefined> {
  try {
    const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
    return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  } catch {
    // Some browsers reckon none for pages opened from a file: then nothing is claimed.
    return undefined;
  }
}

/** The first sixteen of its digits, for people to compare. */
export function fingerprintWords(fingerprint: string): string {
  return `fingerprint ${(fingerprint.slice(0, 16).match(/.{4}/g) ?? []).join(' ')}`;
}

/** What is said of a text that is not the one its file states; undefined where it is, or where the file states nothing. */
export async function alteredWords(text: string, stated: string | undefined): Promise<string | undefined> {
  if (stated === undefined) return undefined;
  const found = await fingerprintOf(text);
  return found === undefined || found === stated ? undefined : 'Its sheet was altered after it was taken away: it is not the one whose fingerprint the file states.';
}

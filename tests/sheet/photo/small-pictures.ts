/** Pictures of 24 × 16 dots, drawn and written by a browser for these tests. */
const bytesOf = (base64: string): Uint8Array => Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));

export const JPEG = bytesOf(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABALDA4MChAODQ4SERATGCgaGBYWGDEjJR0oOjM9PDkzODdASFxOQERXRTc4UG1RV19iZ2hnPk1xeXBkeFxlZ2P/' +
  '2wBDARESEhgVGC8aGi9jQjhCY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2P/wAARCAAQABgDASIAAhEBAxEB/8QA' +
  'FgABAQEAAAAAAAAAAAAAAAAAAAQF/8QAGxAAAQQDAAAAAAAAAAAAAAAAEQAFE2EVI0L/xAAUAQEAAAAAAAAAAAAAAAAAAAAA/8QAFBEBAAAAAAAAAAAAAAAA' +
  'AAAAAP/aAAwDAQACEQMRAD8A02ttyEu2OMckk3SOjbj4tskh5AAu0a3LHy6pJB0ADVo6OWQi1RxnokiqQQIiIP/Z',
);

export const PNG = bytesOf(
  'iVBORw0KGgoAAAANSUhEUgAAABgAAAAQCAYAAAAMJL+VAAAASElEQVR4AeyQMQoAMAgDg5/2C/rqdndQpMRBKmQQAklOzOwwJSDfwgBVRaYu0YWIuggq/0dU' +
  'EcI8IndHprJyMMwvCAWeX/qCCwAA///od1cRAAAABklEQVQDALLgVklLGj45AAAAAElFTkSuQmCC',
);

/** The first bytes of an extended WebP file, and its length as the head states it. */
export const WEBP_HEAD = bytesOf('UklGRhwCAABXRUJQVlA4WAoAAAAgAAAAFwAADwAA');
export const WEBP_LENGTH = 548;

/** A segment as cameras write it: EXIF, with words in place of coordinates that a test can look for. */
export function exifSegment(words: string): Uint8Array {
  const payload = new TextEncoder().encode(`Exif\0\0${words}`);
  const length = payload.length + 2;
  return Uint8Array.from([0xff, 0xe1, length >> 8, length & 0xff, ...payload]);
}

/** The picture with a segment put in after its first marker. */
export function withSegment(jpeg: Uint8Array, segment: Uint8Array): Uint8Array {
  return Uint8Array.from([...jpeg.subarray(0, 2), ...segment, ...jpeg.subarray(2)]);
}

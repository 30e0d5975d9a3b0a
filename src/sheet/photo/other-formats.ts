/** What a picture's bytes say in the formats other than JPEG. All give undefined where the start is not that of the format. */

/** What a format's reader finds: dots, whether the file holds its end, whether it moves. */
export interface FoundPicture {
  readonly width: number;
  readonly height: number;
  readonly isWhole: boolean;
  readonly isMoving: boolean;
}

interface View {
  /** Big-endian. */
  u32(at: number): number;
  u16le(at: number): number;
  u24le(at: number): number;
  u32le(at: number): number;
  name(at: number): string;
}

function viewOf(bytes: Uint8Array): View {
  const byte = (at: number): number => bytes[at] ?? 0;
  return {
    u32: (at) => byte(at) * 0x1000000 + ((byte(at + 1) << 16) | (byte(at + 2) << 8) | byte(at + 3)),
    u16le: (at) => byte(at) | (byte(at + 1) << 8),
    u24le: (at) => byte(at) | (byte(at + 1) << 8) | (byte(at + 2) << 16),
    u32le: (at) => (byte(at) | (byte(at + 1) << 8) | (byte(at + 2) << 16)) + byte(at + 3) * 0x1000000,
    name: (at) => String.fromCharCode(byte(at), byte(at + 1), byte(at + 2), byte(at + 3)),
  };
}

/** @source PNG specification (W3C), chunk layout; acTL announces an animation */
export function readPng(bytes: Uint8Array): FoundPicture | undefined {
  const view = viewOf(bytes);
  if (view.name(12) !== 'IHDR') return undefined;
  let isMoving = false;
  let isWhole = false;
  for (let at = 8; at + 12 <= bytes.length; at += 12 + view.u32(at)) {
    const name = view.name(at + 4);
    if (name === 'acTL') isMoving = true;
    if (name !== 'IEND') continue;
    isWhole = true;
    break;
  }
  return { width: view.u32(16), height: view.u32(20), isWhole, isMoving };
}

/** @source WebP container specification: RIFF, then VP8X, VP8L or VP8 */
export function readWebp(bytes: Uint8Array): FoundPicture | undefined {
  const view = viewOf(bytes);
  const isWhole = view.u32le(4) + 8 <= bytes.length;
  switch (view.name(12)) {
    case 'VP8X': return { width: view.u24le(24) + 1, height: view.u24le(27) + 1, isWhole, isMoving: ((bytes[20] ?? 0) & 2) !== 0 };
    case 'VP8L': {
      const bits = view.u32le(21);
      return { width: (bits % 0x4000) + 1, height: (Math.floor(bits / 0x4000) % 0x4000) + 1, isWhole, isMoving: false };
    }
    case 'VP8 ': return { width: view.u16le(26) & 0x3fff, height: view.u16le(28) & 0x3fff, isWhole, isMoving: false };
    default: return undefined;
  }
}

/** Two pictures in one GIF are an animation. @source GIF89a specification */
export function readGif(bytes: Uint8Array): FoundPicture | undefined {
  const view = viewOf(bytes);
  const tableBytes = (flags: number): number => ((flags & 0x80) === 0 ? 0 : 3 * 2 ** ((flags & 7) + 1));
  let pictures = 0;
  let isWhole = false;
  let at = 13 + tableBytes(bytes[10] ?? 0);
  const skipBlocks = (from: number): number => {
    let place = from;
    while (place < bytes.length && bytes[place] !== 0) place += 1 + (bytes[place] ?? 0);
    return place + 1;
  };
  while (at < bytes.length && !isWhole) {
    const kind = bytes[at];
    if (kind === 0x3b) isWhole = true;
    else if (kind === 0x21) at = skipBlocks(at + 2);
    else if (kind === 0x2c) {
      pictures += 1;
      at = skipBlocks(at + 11 + tableBytes(bytes[at + 9] ?? 0));
    } else break;
  }
  return { width: view.u16le(6), height: view.u16le(8), isWhole, isMoving: pictures > 1 };
}

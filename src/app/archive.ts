/**
 * Files in one archive, as the ZIP format has them (ISO/IEC 21320-1: each file deflated or stored, names in UTF-8, nothing encrypted, one archive of one part).
 * The browser itself deflates, outside the page's own thread.
 */
interface ArchivedFile {
  /** With `/` between folders; a name that is there already gets a number. */
  readonly name: string;
  readonly content: string | Uint8Array<ArrayBuffer>;
}

/** A file in the archive, and what the list at the archive's end says of it. */
interface Entry {
  readonly name: Uint8Array<ArrayBuffer>;
  readonly checksum: number;
  readonly size: number;
  readonly data: Uint8Array<ArrayBuffer>;
  readonly isDeflated: boolean;
  /** Where its own head begins, bytes from the archive's start. */
  readonly offset: number;
}

const LOCAL_HEAD = 30;
const LISTED_HEAD = 46;
const END = 22;
/** Names are UTF-8. */
const UTF_8 = 0x0800;
const DEFLATED = 8;
/** Version 2.0 of the format: folders and deflating. */
const VERSION = 20;
/** More files, or more bytes, would ask for the format's other lists. */
const MOST_FILES = 65_535;
const MOST_BYTES = 4_000_000_000;

/**
 * The files as one archive, in their order. They may be made while it is written, so that no more than one lies ready.
 * @throws RangeError above 65 535 files or 4 GB, which no class has
 */
export async function archived(files: Iterable<ArchivedFile> | AsyncIterable<ArchivedFile>, at: Date): Promise<Blob> {
  const [parts, listed, taken]: [BlobPart[], BlobPart[], Set<string>] = [[], [], new Set()];
  let offset = 0;
  for await (const file of files) {
    const entry = await entryOf({ ...file, name: freeName(file.name, taken) }, offset);
    const head = headOf(entry, at);
    parts.push(head, entry.name, entry.data);
    listed.push(listedHead(entry, head), entry.name);
    offset += LOCAL_HEAD + entry.name.length + entry.data.length;
    if (taken.size > MOST_FILES || offset > MOST_BYTES) throw new RangeError('too much for one archive');
  }
  const list = new Blob(listed);
  return new Blob([...parts, list, endOf(taken.size, list.size, offset)], { type: 'application/zip' });
}

/** `a.html` becomes `a-2.html` where the archive has one; names that differ in capitals alone are one file to some systems. */
function freeName(name: string, taken: Set<string>): string {
  const dot = name.lastIndexOf('.');
  const [stem, ending] = dot > name.lastIndexOf('/') + 1 ? [name.slice(0, dot), name.slice(dot)] : [name, ''];
  let free = name;
  for (let i = 2; taken.has(free.toLowerCase()); i++) free = `${stem}-${i}${ending}`;
  taken.add(free.toLowerCase());
  return free;
}

async function entryOf({ name, content }: ArchivedFile, offset: number): Promise<Entry> {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const deflated = await deflate(bytes);
  const isDeflated = deflated.length < bytes.length;
  return { name: new TextEncoder().encode(name), checksum: checksumOf(bytes), size: bytes.length, data: isDeflated ? deflated : bytes, isDeflated, offset };
}

async function deflate(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
  const stream = new Blob([bytes]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** What stands before each file. */
function headOf({ name, checksum, size, data, isDeflated }: Entry, at: Date): Uint8Array<ArrayBuffer> {
  const head = new DataView(new ArrayBuffer(LOCAL_HEAD));
  head.setUint32(0, 0x04034b50, true);
  head.setUint16(4, VERSION, true);
  head.setUint16(6, UTF_8, true);
  head.setUint16(8, isDeflated ? DEFLATED : 0, true);
  head.setUint16(10, timeOf(at), true);
  head.setUint16(12, dateOf(at), true);
  head.setUint32(14, checksum, true);
  head.setUint32(18, data.length, true);
  head.setUint32(22, size, true);
  head.setUint16(26, name.length, true);
  return new Uint8Array(head.buffer);
}

/** The same again in the list, with where the file stands. */
function listedHead({ offset }: Entry, local: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer> {
  const head = new Uint8Array(LISTED_HEAD);
  const view = new DataView(head.buffer);
  view.setUint32(0, 0x02014b50, true);
  view.setUint16(4, VERSION, true);
  head.set(local.subarray(4), 6);
  view.setUint32(42, offset, true);
  return head;
}

function endOf(count: number, listSize: number, offset: number): Uint8Array<ArrayBuffer> {
  const end = new DataView(new ArrayBuffer(END));
  end.setUint32(0, 0x06054b50, true);
  end.setUint16(8, count, true);
  end.setUint16(10, count, true);
  end.setUint32(12, listSize, true);
  end.setUint32(16, offset, true);
  return new Uint8Array(end.buffer);
}

/** Two seconds are one step. */
function timeOf(at: Date): number {
  return (at.getHours() << 11) | (at.getMinutes() << 5) | (at.getSeconds() >> 1);
}

/** The format's years begin with 1980. */
function dateOf(at: Date): number {
  return (Math.max(0, at.getFullYear() - 1980) << 9) | ((at.getMonth() + 1) << 5) | at.getDate();
}

/** CRC-32 of ISO/IEC 3309, as the format asks for. */
export function checksumOf(bytes: Uint8Array): number {
  let crc = -1;
  for (const byte of bytes) crc = (crc >>> 8) ^ (REMAINDERS[(crc ^ byte) & 0xff] ?? 0);
  return (crc ^ -1) >>> 0;
}

const REMAINDERS = Int32Array.from({ length: 256 }, (_, byte) => {
  let remainder = byte;
  for (let bit = 0; bit < 8; bit++) remainder = remainder & 1 ? (remainder >>> 1) ^ 0xedb88320 : remainder >>> 1;
  return remainder;
});

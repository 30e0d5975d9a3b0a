import { fail, ok, type Problem, type Result } from '../core/problem/index.ts';
import { checksumOf } from './archive.ts';

/** A file in an archive that came in. Nothing of it is unpacked before it is opened. */
interface ArchivedEntry {
  /** With its folders, as the archive has it. */
  readonly name: string;
  readonly open: () => Promise<Result<File>>;
}

const END = 22;
const LONGEST_REMARK = 65_535;
const LISTED_HEAD = 46;
const LOCAL_HEAD = 30;
const ENCRYPTED = 0x0001;
const [STORED, DEFLATED] = [0, 8];
/** More files than any class returns. */
const MOST_ENTRIES = 3000;
/** The list of an archive of so many files with long names. */
const LONGEST_LIST = 4_000_000;
/** Largest file that is unpacked, bytes, whatever the archive says of it. */
const LARGEST_ENTRY = 60_000_000;

/** Whether a file is an archive, by what it begins with. */
export async function isArchive(file: Blob): Promise<boolean> {
  const bytes = new Uint8Array(await file.slice(0, 4).arrayBuffer().catch(() => new ArrayBuffer(0)));
  return bytes[0] === 0x50 && bytes[1] === 0x4b && ((bytes[2] === 3 && bytes[3] === 4) || (bytes[2] === 5 && bytes[3] === 6));
}

/** The files that the list at an archive's end names; folders and what systems put beside files are passed over. An archive within an archive stays a file. */
export async function archiveFiles(archive: Blob): Promise<Result<readonly ArchivedEntry[]>> {
  const tail = await bytesOf(archive, Math.max(0, archive.size - END - LONGEST_REMARK), archive.size);
  const end = endIn(tail);
  if (end === undefined) return fail(damaged());
  const [count, size, start] = [tail.getUint16(end + 10, true), tail.getUint32(end + 12, true), tail.getUint32(end + 16, true)];
  if (count > MOST_ENTRIES || size > LONGEST_LIST) return fail(tooMany());
  const list = await bytesOf(archive, start, start + size);
  const entries: ArchivedEntry[] = [];
  for (let at = 0, i = 0; i < count; i++) {
    if (at + LISTED_HEAD > list.byteLength || list.getUint32(at, true) !== 0x02014b50) return fail(damaged());
    const [nameLength, more] = [list.getUint16(at + 28, true), list.getUint16(at + 30, true) + list.getUint16(at + 32, true)];
    if (at + LISTED_HEAD + nameLength > list.byteLength) return fail(damaged());
    const name = new TextDecoder().decode(new Uint8Array(list.buffer, list.byteOffset + at + LISTED_HEAD, nameLength));
    const head = { flags: list.getUint16(at + 8, true), method: list.getUint16(at + 10, true), checksum: list.getUint32(at + 16, true), packed: list.getUint32(at + 20, true), place: list.getUint32(at + 42, true) };
    if (isFile(name)) entries.push({ name, open: () => unpacked(archive, name, head) });
    at += LISTED_HEAD + nameLength + more;
  }
  return ok(entries);
}

function isFile(name: string): boolean {
  return !name.endsWith('/') && !name.split('/').some((part) => part === '__MACOSX' || part.startsWith('.'));
}

interface EntryHead {
  readonly flags: number;
  readonly method: number;
  readonly checksum: number;
  readonly packed: number;
  readonly place: number;
}

async function unpacked(archive: Blob, name: string, { flags, method, checksum, packed, place }: EntryHead): Promise<Result<File>> {
  if ((flags & ENCRYPTED) !== 0) return fail(locked());
  const local = await bytesOf(archive, place, place + LOCAL_HEAD);
  if (local.byteLength < LOCAL_HEAD || local.getUint32(0, true) !== 0x04034b50) return fail(damaged());
  const start = place + LOCAL_HEAD + local.getUint16(26, true) + local.getUint16(28, true);
  const data = archive.slice(start, start + packed);
  const content = method === STORED ? data : method === DEFLATED ? await inflated(data) : undefined;
  const isWhole = content !== undefined && checksumOf(new Uint8Array(await content.arrayBuffer())) === checksum;
  return isWhole ? ok(new File([content], name)) : fail(damaged());
}

/** Undefined where it can't be inflated, or has more than any file that comes from a sheet: what an archive says of its sizes is not believed. */
async function inflated(data: Blob): Promise<Blob | undefined> {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  let size = 0;
  try {
    const reader = data.stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
    for (let part = await reader.read(); !part.done; part = await reader.read()) {
      size += part.value.length;
      if (size > LARGEST_ENTRY) {
        await reader.cancel();
        return undefined;
      }
      parts.push(part.value);
    }
  } catch {
    // Deflated data that can't be read: the archive is damaged, and said to be.
    return undefined;
  }
  return new Blob(parts);
}

async function bytesOf(archive: Blob, from: number, to: number): Promise<DataView> {
  return new DataView(await archive.slice(from, to).arrayBuffer());
}

/** Where the archive's last record begins: behind it there may be a remark. */
function endIn(tail: DataView): number | undefined {
  for (let at = tail.byteLength - END; at >= 0; at--) if (tail.getUint32(at, true) === 0x06054b50) return at;
  return undefined;
}

function damaged(): Problem {
  return { code: 'archive-damaged', what: 'The archive, or this part of it, can’t be read.', mend: 'Unpack it on this computer and choose the files that were in it.' };
}

function tooMany(): Problem {
  return { code: 'archive-too-many', what: `The archive has more than ${MOST_ENTRIES} files.`, mend: 'Unpack it on this computer and choose those that came from a sheet.' };
}

function locked(): Problem {
  return { code: 'archive-locked', what: 'This file in the archive is locked with a password.', mend: 'Unpack it on this computer and choose the file that was in it.' };
}

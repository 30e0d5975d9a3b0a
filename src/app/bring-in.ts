import { fail, ok, type Result } from '../core/problem/index.ts';
import { extractDocument } from '../report/index.ts';
import { acceptText } from '../sheet/index.ts';

/** Largest file taken in, bytes; a working file with its script has about two million. */
const LARGEST_FILE = 60_000_000;

/**
 * The document's text in a file that a reader opened or dropped: a document (.md), a report or a working file.
 * The file is data; nothing in it is executed, and what is refused changes nothing.
 */
export async function textOfFile(file: File): Promise<Result<string>> {
  if (file.size > LARGEST_FILE) {
    return fail({
      code: 'file-too-large',
      what: `${file.name} has ${Math.round(file.size / 1e6)} MB; a sheet has at most ${LARGEST_FILE / 1e6} MB.`,
      mend: 'Choose a document, a report or a working file that came from a sheet.',
    });
  }
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch {
    return fail({
      code: 'file-unreadable',
      what: `${file.name} could not be read.`,
      mend: 'See that it is still there and that you may open it, then try again.',
    });
  }
  // The byte order mark belongs to the document's bytes and is given back with them.
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  const page = /^\uFEFF?\s*<(?:!doctype|html|!--)/i.test(text);
  const document = page ? extractDocument(text) : ok(text);
  return document.ok ? acceptText(document.value) : document;
}

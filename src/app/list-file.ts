import { composed, fail, ok, type Result } from '../core/problem/index.ts';

/** A class list of the most teams with long names is far below that, bytes. */
const LARGEST = 4_000_000;

/** A class list out of a file, in whichever of the encodings a spreadsheet writes; what had to be guessed is said. */
export async function textOfList(file: File): Promise<Result<{ readonly text: string; readonly note?: string }>> {
  if (file.size > LARGEST) return fail({ code: 'list-large', what: composed`${file.name} has more than ${LARGEST / 1e6} MB.`, mend: 'Choose a file with the teams of a class.' });
  const bytes = await file.arrayBuffer().catch(() => undefined);
  if (bytes === undefined) return fail({ code: 'list-unreadable', what: composed`${file.name} could not be read.`, mend: 'See that it is still there and that you may open it, then try again.' });
  const [first, second] = new Uint8Array(bytes);
  if (first === 0xff && second === 0xfe) return ok({ text: new TextDecoder('utf-16le').decode(bytes) });
  if (first === 0xfe && second === 0xff) return ok({ text: new TextDecoder('utf-16be').decode(bytes) });
  try {
    return ok({ text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) });
  } catch {
    return ok({ text: new TextDecoder('windows-1252').decode(bytes), note: composed`${file.name} is not written in UTF-8 and is read as Western European (Windows-1252): look at the names.` });
  }
}

import { composed, fail, ok, problemSentence, type Result } from '../core/problem/index.ts';
import { countText, extractDocument, statedFingerprint } from '../report/index.ts';
import { acceptText, parseSheet, whyNoSheet } from '../sheet/index.ts';
import { alteredWords } from './fingerprint.ts';
import type { NoticeDesk } from './notices.ts';

/** Largest file taken in, bytes; a working file with its script has about two million. */
const LARGEST_FILE = 60_000_000;
const START_OF_FILE = 4096;

/** What a file that a reader opened or dropped holds, as data. */
interface HeldText {
  /** Of a document (.md), a report or a working file. */
  readonly text: Result<string>;
  /** SHA-256 that the file states of it. */
  readonly stated?: string | undefined;
}

/** The text in a file. The file is data; nothing in it is executed, and what is refused changes nothing. Whether it is a sheet is not looked at. */
export async function heldText(file: File): Promise<HeldText> {
  if (file.size > LARGEST_FILE) {
    return { text: fail({
      code: 'file-too-heavy',
      what: `It has ${Math.round(file.size / 1e6)} MB; a file with a sheet has at most ${LARGEST_FILE / 1e6} MB.`,
      mend: 'Choose a document, a report or a working file that came from a sheet.',
    }) };
  }
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch {
    return { text: fail({
      code: 'file-unreadable',
      what: 'It could not be read.',
      mend: 'See that it is still there and that you may open it, then try again.',
    }) };
  }
  // The byte order mark belongs to the document's bytes and is given back with them.
  const whole = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  const isOurs = isPage(whole);
  const document = isOurs ? extractDocument(whole) : ok(whole);
  return { text: document.ok ? acceptText(document.value) : document, ...(isOurs ? { stated: statedFingerprint(whole) } : {}) };
}

/** The text of the sheet in a file. */
export async function textOfFile(file: File): Promise<Result<string>> {
  const { text } = await heldText(file);
  return text.ok ? holdsSheet(text.value) : text;
}

/** HTML, perhaps with a remark before it that a browser or mail program wrote. */
function isPage(text: string): boolean {
  const start = text.slice(0, START_OF_FILE).replace(/<!--[\s\S]*?-->/g, '').trimStart();
  return /^(?:<\?xml[^>]*>\s*)?<(?:!doctype\s+html|html)\b/i.test(start.replace(/^\uFEFF\s*/, ''));
}

function holdsSheet(text: string): Result<string> {
  const problem = whyNoSheet(parseSheet(text));
  return problem === undefined ? ok(text) : fail(problem);
}

/** What is to be said of a file whose sheet is not the one it states. */
async function alteredIn(file: File, text: string): Promise<string> {
  const { stated } = await heldText(file);
  return alteredWords(text, stated) ?? '';
}

/** The longest of our own sheets has some 150 cells; this many take a second or two, during which the page does not answer. */
const MANY_CELLS = 2000;

function cellsIn(text: string): number {
  return text.match(/^`{3,}[a-z]/gm)?.length ?? 0;
}

/** Opens each file that holds a sheet and says of every file what became of it; one that would hold the page up is opened only when that is wanted. */
export async function bringIn(files: readonly File[], open: (text: string) => Promise<void>, tell: NoticeDesk['tell']): Promise<void> {
  const told: string[] = [];
  for (const file of files) {
    const text = await textOfFile(file);
    if (text.ok && cellsIn(text.value) > MANY_CELLS) {
      tell(composed`${file.name} holds ${countText(cellsIn(text.value))} cells: to open it may take the page some seconds. It is not brought in so far.`, { label: 'Open it all the same', apply: () => void bring(file, text.value, open).then((words) => tell(words)) });
      continue;
    }
    told.push(text.ok ? await bring(file, text.value, open) : composed`${file.name} was not brought in. ${problemSentence(text.problem)}`);
  }
  if (told.length > 0) tell(told.join(' '));
}

/** Opens the sheet of a file; gives what is to be said of it, and whether it was altered. */
async function bring(file: File, text: string, open: (text: string) => Promise<void>): Promise<string> {
  await open(text);
  return composed`${file.name} is brought in as a sheet of its own. ${await alteredIn(file, text)}`.trim();
}

/** Files dropped anywhere on the page are brought in instead of replacing the page. */
export function listenForFiles(take: (files: readonly File[]) => void): void {
  const holdsFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
  window.addEventListener('dragover', (event) => {
    if (holdsFiles(event)) event.preventDefault();
  });
  window.addEventListener('drop', (event) => {
    if (!holdsFiles(event)) return;
    event.preventDefault();
    take([...(event.dataTransfer?.files ?? [])]);
  });
}

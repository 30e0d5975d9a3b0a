import { fail, ok, type Result } from '../core/problem/index.ts';
import { createGatherer, NOTHING_GATHERED, type Gathered, type ReadFile } from '../returns/index.ts';
import { faultWords } from '../view/index.ts';
import { archiveFiles, isArchive } from './archive-files.ts';
import { heldText } from './bring-in.ts';
import { alteredWords } from './fingerprint.ts';

/** What is told while files are read. */
interface ReaderListener {
  /** Files read so far of those chosen. */
  readonly progress: (done: number, all: number) => void;
  /** Everything is read. */
  readonly read: (gathered: Gathered) => void;
  /** What some wrong results come of is known. */
  readonly explained: (gathered: Gathered) => void;
  /** It could not be looked for in one sheet. */
  readonly failed: (error: unknown) => void;
}

/** A file that was chosen, or one in an archive that was. */
interface Waiting {
  readonly name: string;
  readonly open: () => Promise<Result<File>>;
  /** An archive within an archive is not looked into. */
  readonly mayBeArchive: boolean;
}

interface CollectReader {
  readonly take: (files: readonly File[]) => void;
  /** Forgets all that was read. */
  readonly clear: () => void;
}

/** Longest stretch of work between two looks at what the reader does, ms. */
const SLICE = 30;
/** Between two words about how far it is, ms. */
const PROGRESS = 200;
/** Between two drawings of a table that gets its explanations, ms. */
const EXPLAINED = 500;

/** Reads files as data, one after the other, in slices; then looks for what wrong results come of, in slices too. */
export function createCollectReader({ progress, read, explained, failed }: ReaderListener): CollectReader {
  let gatherer = createGatherer();
  let gathered = NOTHING_GATHERED;
  const waiting: Waiting[] = [];
  /** Counts the times that all was forgotten: what was under way then ends. */
  let wish = 0;

  async function readAll(): Promise<void> {
    const ours = wish;
    const pause = pauses();
    let [told, done] = [0, 0];
    for (let file = waiting[0]; file !== undefined; file = waiting[0]) {
      const found = await opened(file);
      const one = 'more' in found ? undefined : await readFile(file.name, found);
      if (ours !== wish) return;
      waiting.shift();
      // The files of an archive take its place.
      if ('more' in found) waiting.unshift(...found.more);
      if (one === undefined) continue;
      gathered = gatheredWith(one);
      done += 1;
      if (performance.now() - told > PROGRESS) {
        told = performance.now();
        progress(done, done + waiting.length);
      }
      await pause();
    }
    read(gathered);
    await explainAll(ours);
  }

  /** A fault of ours at one file leaves the others alone, and is told at that file. */
  function gatheredWith(file: ReadFile): Gathered {
    try {
      return gatherer.take(file);
    } catch (error) {
      return gatherer.take({ name: file.name, isAltered: false, text: fail({ code: 'returned-fault', what: `The page could not read it (${faultWords(error)}).`, mend: 'Bring it in as a sheet of its own to look at it.' }) });
    }
  }

  /** Until all are explained, or more files come in: theirs are explained after those. */
  async function explainAll(ours: number): Promise<void> {
    const pause = pauses();
    let told = performance.now();
    for (let next = explainOne(); next !== undefined && waiting.length === 0 && ours === wish; next = explainOne()) {
      gathered = next;
      if (performance.now() - told > EXPLAINED) {
        told = performance.now();
        explained(gathered);
      }
      await pause();
    }
    if (ours === wish && waiting.length === 0) explained(gathered);
  }

  function explainOne(): Gathered | undefined {
    try {
      return gatherer.explainNext();
    } catch (error) {
      // The verdict stands without an explanation.
      failed(error);
      return gathered;
    }
  }

  return {
    take: (files) => {
      const isAtWork = waiting.length > 0;
      waiting.push(...files.map((file) => ({ name: file.name, open: () => Promise.resolve(ok(file)), mayBeArchive: true })));
      progress(0, waiting.length);
      if (!isAtWork) void readAll();
    },
    clear: () => {
      wish += 1;
      waiting.length = 0;
      gatherer = createGatherer();
      gathered = NOTHING_GATHERED;
    },
  };
}

/** Lets the page look at what the reader does whenever a slice is over. */
function pauses(): () => Promise<void> {
  let begun = performance.now();
  return async () => {
    if (performance.now() - begun < SLICE) return;
    await new Promise((next) => setTimeout(next));
    begun = performance.now();
  };
}

/** What a name stands for: a file, what keeps it from being one, or the files of an archive. */
async function opened({ name, open, mayBeArchive }: Waiting): Promise<Result<File> | { readonly more: readonly Waiting[] }> {
  const file = await open();
  if (!file.ok || !mayBeArchive || !(await isArchive(file.value))) return file;
  const entries = await archiveFiles(file.value);
  return entries.ok ? { more: entries.value.map((entry) => ({ name: `${name}/${entry.name}`, open: entry.open, mayBeArchive: false })) } : entries;
}

async function readFile(name: string, file: Result<File>): Promise<ReadFile> {
  if (!file.ok) return { name, text: file, isAltered: false };
  const { text, stated } = await heldText(file.value);
  return { name, text, isAltered: text.ok && alteredWords(text.value, stated) !== undefined };
}

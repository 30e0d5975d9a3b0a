import { render } from 'lit-html';
import startText from '../../worksheets/rotating-bending.md?raw';
import { problemSentence } from '../core/problem/index.ts';
import { parseSheet, serialiseSheet } from '../sheet/index.ts';
import { createSession, mountSheet, type SheetSession } from '../view/index.ts';
import { createAutosave, type Autosave, type KeepingState } from './autosave.ts';
import { textOfFile } from './bring-in.ts';
import { emptied } from './empty-sheet.ts';
import { headerTemplate, type HeaderActions, type Notice } from './header.ts';
import { carriedSheet, ownParts } from './page-parts.ts';
import { freshSheetId, type KeptSheet, type ShelfStore } from './shelf-store.ts';
import { takeAway } from './take-away.ts';

const EMPTY_SHEET = '---\ntitle: New sheet\nunits: SI\n---\nWrite here what is to be found, and add cells below.\n';

/** A sheet lying open, with what keeps it. */
interface OpenSheet {
  readonly session: SheetSession;
  readonly autosave: Autosave;
  close(): void;
}

type Opening = Pick<KeptSheet, 'id' | 'revision' | 'text'>;

/** Starts the page: opens the sheet it carries or the last one kept, and wires the head of the page to it. */
export async function startPage(root: HTMLElement, store: ShelfStore | undefined): Promise<void> {
  const own = ownParts(document);
  const carried = carriedSheet(document);
  const head = document.createElement('header');
  head.className = 'head';
  root.before(head);
  let sheet: OpenSheet | undefined;
  let kept: readonly KeptSheet[] = [];
  let keeping: KeepingState = { state: 'unchanged' };
  let notice: Notice | undefined;

  const show = (): void => {
    if (sheet === undefined) return;
    const title = titleOf(sheet.session);
    document.title = title;
    const { session, autosave } = sheet;
    const state = { title, sheetId: autosave.sheetId(), kept, keeping, notice, canUndo: session.canUndo(), canRedo: session.canRedo() };
    render(headerTemplate(state, actions), head);
  };

  const tell = (text: string, remedy?: Notice['remedy']): void => {
    notice = remedy === undefined ? { text } : { text, remedy };
    show();
  };

  const refreshKept = async (): Promise<void> => {
    kept = (await store?.list().catch(() => [])) ?? [];
    show();
  };

  const open = async (opening: Opening): Promise<void> => {
    await sheet?.autosave.flush();
    sheet?.close();
    keeping = { state: 'unchanged' };
    sheet = openSheet(root, store, opening, (state) => {
      keeping = state;
      if (state.state === 'kept' || state.state === 'copied') void refreshKept();
      else show();
    }, show);
    await refreshKept();
  };

  const openNew = (text: string): Promise<void> => open({ id: freshSheetId(), revision: 0, text });

  /** A sheet that exists nowhere else yet is kept at once, before anyone has changed it. */
  const openBroughtIn = async (text: string): Promise<void> => {
    await openNew(text);
    sheet?.autosave.touch();
  };

  const actions: HeaderActions = {
    undo: () => sheet?.session.undo(),
    redo: () => sheet?.session.redo(),
    takeAway: (what) => {
      if (sheet === undefined) return;
      const { session, autosave } = sheet;
      const context = { document: session.document(), states: session.states(), system: session.system() };
      takeAway(what, { context, own, sheetId: autosave.sheetId(), at: new Date() });
    },
    print: () => window.print(),
    bringIn: (files) => void bringIn(files, openBroughtIn, tell),
    open: (id) => void store?.read(id).then((found) => (found === undefined ? refreshKept() : open(found))),
    remove: (id) => void remove(id),
    duplicate: () => {
      if (sheet !== undefined) void openBroughtIn(serialiseSheet(sheet.session.document()));
    },
    start: (from) => void openNew(startingText(from)),
    dismiss: () => {
      notice = undefined;
      show();
    },
  };

  const remove = async (id: string): Promise<void> => {
    const gone = await store?.read(id);
    if (gone === undefined) return refreshKept();
    await store?.remove(id);
    if (sheet?.autosave.sheetId() === id) await openNew(startText);
    await refreshKept();
    tell(`“${gone.title}” is deleted from this browser.`, {
      label: 'Put it back',
      apply: () => {
        notice = undefined;
        void open({ ...gone, revision: 0 }).then(() => sheet?.autosave.touch());
      },
    });
  };

  listenForFiles(actions.bringIn);
  document.addEventListener('visibilitychange', () => void (document.hidden && sheet?.autosave.flush()));
  window.addEventListener('pagehide', () => void sheet?.autosave.flush());

  const first = await firstSheet(carried, store);
  await open(first.opening);
  if (first.notice !== undefined) tell(first.notice, first.fileText === undefined ? undefined : openingFileText(first.fileText));

  function openingFileText(text: string): Notice['remedy'] {
    return {
      label: 'Show the file’s own state',
      apply: () => {
        notice = undefined;
        void openBroughtIn(text);
      },
    };
  }
}

function openSheet(
  root: HTMLElement,
  store: ShelfStore | undefined,
  opening: Opening,
  report: (state: KeepingState) => void,
  changed: () => void,
): OpenSheet {
  const session = createSession(parseSheet(opening.text), { now: () => new Date() });
  const read = () => ({ title: titleOf(session), text: serialiseSheet(session.document()) });
  const autosave = createAutosave({ store, sheet: opening, read, freshId: freshSheetId, now: () => new Date(), report });
  let shown = session.document();
  const unsubscribe = session.subscribe(() => {
    if (session.document() !== shown) {
      shown = session.document();
      autosave.touch();
    }
    changed();
  });
  const mounted = mountSheet(root, session);
  return {
    session,
    autosave,
    close: () => {
      unsubscribe();
      autosave.dispose();
      mounted.dispose();
      session.dispose();
    },
  };
}

interface FirstSheet {
  readonly opening: Opening;
  readonly notice?: string;
  readonly fileText?: string;
}

/** A working file opens its own sheet, in the state last kept here if that differs; the plain page opens the last one kept. */
async function firstSheet(carried: ReturnType<typeof carriedSheet>, store: ShelfStore | undefined): Promise<FirstSheet> {
  const text = carried.text.ok ? carried.text.value : startText;
  const trouble = carried.text.ok ? {} : { notice: problemSentence(carried.text.problem) };
  if (carried.sheetId === undefined) {
    const [last] = (await store?.list().catch(() => [])) ?? [];
    return { opening: last ?? { id: freshSheetId(), revision: 0, text }, ...trouble };
  }
  const kept = await store?.read(carried.sheetId).catch(() => undefined);
  if (kept === undefined) return { opening: { id: carried.sheetId, revision: 0, text }, ...trouble };
  if (kept.text === text) return { opening: kept };
  const at = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(kept.changed));
  return {
    opening: kept,
    notice: `This is the sheet as it was last changed in this browser (${at}). The file itself holds another state.`,
    fileText: text,
  };
}

function startingText(from: 'example' | 'blank' | 'empty'): string {
  if (from === 'empty') return EMPTY_SHEET;
  return from === 'example' ? startText : serialiseSheet(emptied(parseSheet(startText)));
}

async function bringIn(
  files: readonly File[],
  open: (text: string) => Promise<void>,
  tell: (text: string) => void,
): Promise<void> {
  for (const file of files) {
    const text = await textOfFile(file);
    if (text.ok) await open(text.value);
    tell(text.ok ? `${file.name} is brought in as a sheet of its own.` : `${file.name} was not brought in. ${problemSentence(text.problem)}`);
  }
}

/** Files dropped anywhere on the page are brought in instead of replacing the page. */
function listenForFiles(take: (files: readonly File[]) => void): void {
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

function titleOf(session: SheetSession): string {
  const title = session.document().frontMatter.entries.get('title')?.trim() ?? '';
  return title === '' ? 'Worksheet' : title;
}

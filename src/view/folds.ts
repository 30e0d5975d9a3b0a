import { headingsOf } from '../report/index.ts';
import { remembered } from '../core/remembered/index.ts';
import { asidesIn, cellsOf, shapeOf, type Block, type ProseBlock, type SheetDocument } from '../sheet/index.ts';

/** Keeps what is open and what is folded, as long as the browser keeps anything. */
export interface FoldMemory {
  read(): Remembered | undefined;
  write(state: Remembered): void;
}

/** By the words of their headings, which stay when lines are put in above them. `EVERY` in place of the asides: all of them stand open. */
export interface Remembered {
  readonly open: readonly string[];
  readonly folded: readonly string[];
}

export const EVERY = '*';

/** What of the sheet is out of sight: parts on demand that nobody asked for, and sections that were folded. It is no part of the document. */
export interface Folds {
  /** Blocks that are out of sight now; the same set as long as it holds the same. */
  away(): ReadonlySet<string>;
  isAway(blockId: string): boolean;
  /** Whether an aside stands open, or the section that begins in a block of text is not folded. */
  isOpen(blockId: string): boolean;
  set(blockId: string, isOpen: boolean): void;
  /** All parts on demand of the sheet at once. */
  setEveryAside(isOpen: boolean): void;
  /** Opens whatever keeps a block out of sight. */
  reveal(blockId: string): void;
  /** Everything is in sight, as before printing; gives the way back. */
  showAll(): () => void;
  /** No section is folded, as in the lecture. */
  unfoldSections(): void;
  /** Hears of each change. Gives the way to stop. */
  subscribe(hear: () => void): () => void;
}

interface Structure {
  readonly blockIds: readonly string[];
  readonly asideOf: ReadonlyMap<string, string>;
  /** The block in which the section of a block begins; that block itself is not in it. */
  readonly sectionOf: ReadonlyMap<string, string>;
  /** What an aside or a section is remembered by. */
  readonly names: ReadonlyMap<string, string>;
}

const headingIn = remembered((block: ProseBlock) => headingsOf(block.source).find(({ level }) => level === 2)?.words);

/** The section that begins in a block of text, by its first heading. */
export function sectionBegun(block: Block | undefined): string | undefined {
  return block?.kind === 'prose' ? headingIn(block) : undefined;
}

const structureOf = (document: SheetDocument): Structure => structureOfShape(shapeOf(document));

const structureOfShape = remembered((document: SheetDocument): Structure => {
  const names = new Map(cellsOf(document, 'aside').map(({ id, label = '' }) => [id, `aside ${label}`]));
  const sectionOf = new Map<string, string>();
  let section: string | undefined;
  for (const block of document.blocks) {
    const words = sectionBegun(block);
    if (words !== undefined) {
      section = block.id;
      names.set(block.id, `section ${words}`);
    } else if (section !== undefined) sectionOf.set(block.id, section);
  }
  return { blockIds: document.blocks.map(({ id }) => id), asideOf: asidesIn(document).of, sectionOf, names };
});

/** @param sheet the document as it is; @param changed puts the sheet into the page anew, and draws a block whose control says something else */
export function createFolds(sheet: () => SheetDocument, changed: (blockIds: readonly string[]) => void, memory?: FoldMemory): Folds {
  const kept = memory?.read();
  let open: ReadonlySet<string> = new Set(kept?.open);
  let folded: ReadonlySet<string> = new Set(kept?.folded);
  let isAllShown = false;
  let known: { readonly structure: Structure; readonly open: unknown; readonly folded: unknown; readonly isAllShown: boolean; readonly away: ReadonlySet<string> } | undefined;
  const listeners = new Set<() => void>();
  const nameOf = (blockId: string): string => structureOf(sheet()).names.get(blockId) ?? '';
  const isOpen = (blockId: string): boolean => {
    const name = nameOf(blockId);
    return isAllShown || (name.startsWith('aside') ? open.has(name) || open.has(EVERY) : !folded.has(name));
  };
  const away = (): ReadonlySet<string> => {
    const structure = structureOf(sheet());
    // Asked for every block at every edit.
    if (known?.structure !== structure || known.open !== open || known.folded !== folded || known.isAllShown !== isAllShown) {
      known = { structure, open, folded, isAllShown, away: awayIn(structure, isOpen) };
    }
    return known.away;
  };
  const put = (next: { readonly open?: ReadonlySet<string>; readonly folded?: ReadonlySet<string> }, blockIds: readonly string[]): void => {
    open = next.open ?? open;
    folded = next.folded ?? folded;
    memory?.write({ open: [...open], folded: [...folded] });
    changed(blockIds);
    for (const hear of listeners) hear();
  };
  const asides = (): readonly string[] => cellsOf(sheet(), 'aside').map(({ id }) => id);
  const set = (blockId: string, isToBeOpen: boolean): void => {
    if (isOpen(blockId) === isToBeOpen) return;
    const name = nameOf(blockId);
    if (name.startsWith('section')) return put({ folded: changedSet(folded, name, !isToBeOpen) }, [blockId]);
    const all = open.has(EVERY) ? new Set(asides().map(nameOf)) : open;
    put({ open: changedSet(all, name, isToBeOpen) }, [blockId]);
  };
  return {
    away,
    isAway: (blockId) => away().has(blockId),
    isOpen,
    set,
    setEveryAside: (isToBeOpen) => put({ open: new Set(isToBeOpen ? [EVERY] : []) }, asides()),
    reveal: (blockId) => {
      const { asideOf, sectionOf } = structureOf(sheet());
      for (const holder of [sectionOf.get(blockId), asideOf.get(blockId)]) if (holder !== undefined) set(holder, true);
    },
    showAll: () => {
      const show = (isAll: boolean): void => {
        isAllShown = isAll;
        changed([...structureOf(sheet()).names.keys()]);
      };
      show(true);
      return () => show(false);
    },
    unfoldSections: () => {
      if (folded.size > 0) put({ folded: new Set() }, [...structureOf(sheet()).names.keys()]);
    },
    subscribe: (hear) => {
      listeners.add(hear);
      return () => void listeners.delete(hear);
    },
  };
}

function awayIn({ blockIds, asideOf, sectionOf }: Structure, isOpen: (blockId: string) => boolean): ReadonlySet<string> {
  const isClosed = (holder: string | undefined): boolean => holder !== undefined && !isOpen(holder);
  return new Set(blockIds.filter((id) => isClosed(asideOf.get(id)) || isClosed(sectionOf.get(id))));
}

function changedSet(set: ReadonlySet<string>, name: string, isIn: boolean): ReadonlySet<string> {
  const next = new Set(set);
  if (isIn) next.add(name);
  else next.delete(name);
  return next;
}

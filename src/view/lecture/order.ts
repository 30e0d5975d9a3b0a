import { composed } from '../../core/problem/index.ts';
import { CHART_NAMES, headingsOf, isGuessing, isToBeWorked, numberSheet, presentFigure, presentTitleBlock, type PresentContext } from '../../report/index.ts';
import { cellIn, cellsOf, lectureMarks, lecturePredictions, type Block, type SheetDocument } from '../../sheet/index.ts';
import { isShown } from '../commands.ts';
import { formOf, PREDICTING, REVEALS, type Reveal } from './forms.ts';

export { PREDICTING, REVEALS, type Reveal };

/** What stands on the wall at one time. */
export interface Station {
  /** Id of its first block; `TITLE` for the sheet's own. */
  readonly id: string;
  readonly blocks: readonly string[];
  readonly name: string;
  /** Place of its chapter in the list. */
  readonly chapter: number;
  /** A line of the derivation or an input: the drawing stands beside it. */
  readonly hasRoomBeside: boolean;
  /** The drawing nearest above, else the sheet's first; absent where it has none. */
  readonly drawing?: string;
}

/** A section of the sheet. */
export interface Chapter {
  readonly number: string;
  readonly name: string;
}

export interface LectureOrder {
  /** Never empty: the title comes first. */
  readonly stations: readonly Station[];
  readonly chapters: readonly Chapter[];
  /** What there is to bring to light at a station as the sheet stands, in order, at least one. */
  readonly revealsAt: (station: Station) => readonly Reveal[];
}

type Route = Pick<LectureOrder, 'stations' | 'chapters'>;

interface KeptRoute extends Route {
  readonly away: ReadonlySet<string>;
}

const routes = new WeakMap<SheetDocument, KeptRoute>();
const NOTHING_AWAY: ReadonlySet<string> = new Set();

/** No block has this id. */
export const TITLE = '';
/** So many blanks below each other can still be read from the last row. */
const MOST_GIVENS = 3;

/**
 * The sheet in the order in which it is told: sections as chapters, givens that follow each other together; without what its head leaves out.
 * @param away blocks that are passed over: a part on demand that is closed
 */
export function lectureOrder(context: PresentContext, away = NOTHING_AWAY): LectureOrder {
  const known = routes.get(context.document);
  const route = known?.away === away ? known : { ...routeThrough(context, away), away };
  routes.set(context.document, route);
  const blocks = new Map(context.document.blocks.map((block) => [block.id, block]));
  const marks = lectureMarks(context.document);
  const predictions = lecturePredictions(context.document);
  return {
    ...route,
    revealsAt: ({ id }) => {
      const block = blocks.get(id);
      const reveals = block === undefined ? FIRST_ONLY : revealsOf(block, context);
      const lines = marks.get(id) === 'at once' ? atOnce(reveals, isToBeAnswered(block, context)) : reveals;
      // While an edit has the class guess, that is enough.
      return predictions.has(id) && !isGuessing(context) ? [...lines, ...PREDICTING] : lines;
    },
  };
}

function routeThrough(context: PresentContext, away: ReadonlySet<string>): Route {
  const { document } = context;
  const { title } = presentTitleBlock(document);
  const chapters: Chapter[] = [{ number: '', name: title }];
  const stations: Station[] = [{ id: TITLE, blocks: [], name: title, chapter: 0, hasRoomBeside: false }];
  const pinned = pinnedOf(context);
  let drawing: string | undefined;
  let before: Block | undefined;
  for (const block of told(document, away)) {
    if (block.kind === 'prose') chapters.push(...chaptersIn(block.id, block.source, document));
    if (pinned.has(block.id)) drawing = block.id;
    const last = stations.at(-1);
    if (last !== undefined && joinsOthers(block) && joinsOthers(before) && last.blocks.length < MOST_GIVENS) {
      stations[stations.length - 1] = { ...last, blocks: [...last.blocks, block.id], name: composed`${last.name}; ${nameOf(block)}` };
      before = block;
      continue;
    }
    const beside = drawing ?? [...pinned][0];
    stations.push({
      id: block.id,
      blocks: [block.id],
      name: nameOf(block),
      chapter: chapters.length - 1,
      hasRoomBeside: block.kind === 'cell' && formOf(block.cell).hasRoomBeside === true,
      ...(beside === undefined ? {} : { drawing: beside }),
    });
    before = block;
  }
  return { stations, chapters };
}

/** Blank lines, remarks that nobody has written, what is closed and what the head leaves out are passed over. */
function told(document: SheetDocument, away: ReadonlySet<string>): readonly Block[] {
  const marks = lectureMarks(document);
  const isLeftOut = (name: string): boolean => marks.get(name) === 'left out';
  let isSectionLeftOut = false;
  return document.blocks.filter((block, i) => {
    const sections = block.kind === 'prose' ? headingsOf(block.source).filter(({ level }) => level <= 2) : [];
    if (sections.length > 0) isSectionLeftOut = sections.every(({ words }) => isLeftOut(words));
    const isClosed = cellIn(block, 'aside') !== undefined && away.has(document.blocks.slice(i + 1).find(isShown)?.id ?? '');
    const isUnwritten = block.kind === 'cell' && formOf(block.cell).isUnwritten?.(block.cell) === true;
    return isShown(block) && !away.has(block.id) && !isClosed && !isUnwritten && !isSectionLeftOut && !(block.kind === 'cell' && isLeftOut(block.id));
  });
}

function joinsOthers(block: Block | undefined): boolean {
  return block?.kind === 'cell' && formOf(block.cell).joinsOthers === true;
}

/** Sections that a prose block begins; the last one is where the cells after it stand. */
function chaptersIn(blockId: string, source: string, document: SheetDocument): readonly Chapter[] {
  const numbers = numberSheet(document).sections.get(blockId) ?? [];
  return headingsOf(source).flatMap(({ level, words }, i) => (level > 2 ? [] : [{ number: numbers[i] ?? '', name: words }]));
}

/** What may stand beside unasked: drawings, which say of what the steps speak; charts only where there is no drawing. */
function pinnedOf(context: PresentContext): ReadonlySet<string> {
  const figures = [...drawingsOf(context).keys()];
  const drawn = figures.filter((id) => CHART_NAMES.every((name) => name !== drawingName(id, context.document)));
  return new Set(drawn.length > 0 ? drawn : figures);
}

function drawingName(id: string, { blocks }: SheetDocument): string {
  return cellIn(blocks.find((one) => one.id === id), 'figure')?.drawing ?? '';
}

/** Figures that can be shown. */
export function drawingsOf(context: PresentContext): ReadonlyMap<string, string> {
  return new Map(cellsOf(context.document, 'figure').flatMap((cell) => {
    const { label, problems } = presentFigure(cell, context);
    return problems.length > 0 ? [] : [[cell.id, label === '' ? cell.id : label] as const];
  }));
}

const MOST_LETTERS = 60;

/** What a station is called in the overview: its label, its heading or its first words. */
function nameOf(block: Block): string {
  if (block.kind === 'cell') {
    const { cell } = block;
    const name = cell.label ?? formOf(cell).heading?.(cell) ?? '';
    return name === '' ? ('symbol' in cell ? cell.symbol : cell.kind) : name;
  }
  const heading = headingsOf(block.source)[0]?.words ?? '';
  if (heading !== '') return heading;
  const words = block.source.replace(/[#*_`>[\]]/gu, '').replace(/\s+/gu, ' ').trim();
  return words.length <= MOST_LETTERS ? words : `${words.slice(0, MOST_LETTERS).replace(/\s\S*$/u, '')} …`;
}

const FIRST_ONLY: readonly Reveal[] = ['words'];

/** All with one press, but for what the class is to work out first. */
function atOnce(reveals: readonly Reveal[], isAsked: boolean): readonly Reveal[] {
  return isAsked ? reveals.slice(-2) : reveals.slice(-1);
}

function isToBeAnswered(block: Block | undefined, context: PresentContext): boolean {
  const step = cellIn(block, 'step');
  return step !== undefined && isToBeWorked(step, context);
}

function revealsOf(block: Block, context: PresentContext): readonly Reveal[] {
  return (block.kind === 'cell' ? formOf(block.cell).reveals?.(block.cell, context) : undefined) ?? FIRST_ONLY;
}

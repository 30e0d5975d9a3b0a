import type { Block } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { enlargeFractions, putInLine, setEquationsIn } from '../equations.ts';
import { largestFitting, sizesFor } from './fit-sizes.ts';
import { areLinesWhole, fitPicture, freePicture, isWhole, isWholeAcross, linesTooWide } from './fit.ts';
import type { Reveal } from './order.ts';
import { toldBottom, turned } from './turn.ts';
import { veilDrawing } from './veil.ts';

/** As what a cell is on the wall: told, or pinned beside what is told. */
export type Role = 'stage' | 'drawing' | 'input';

/** The cells on the wall. They are the sheet's own, in the place that they have in the page; all others are not shown. */
interface Stage {
  put(cast: ReadonlyMap<string, Role>, reveals: readonly Reveal[]): void;
  /** Letters as large as they can be. Where a word says what is shown, they keep their size until something else is, or no longer fits. */
  fit(shown?: unknown): void;
  /** Smaller letters where something no longer fits. */
  keepWhole(): void;
  /** What is taller than the window goes on by a screen; whether there was more to see. */
  turn(way: 1 | -1): boolean;
  clear(): void;
}

interface StageParts {
  readonly sheet: HTMLElement;
  /** Lies over the sheet, with what no cell shows. */
  readonly wall: HTMLElement;
  readonly desk: Desk;
  readonly draw: (block: Block) => void;
}

/** Above and below a picture, px. */
const ROOM_AROUND = 40;
/** What a part that comes to light is, by the word of the cell's `data-reveals`. */
const PARTS: Readonly<Record<string, string>> = { words: '.label', symbols: '.symbols', numbers: '.numbers, .result', result: '.result, .verdict, .problem' };

export function createStage({ sheet, wall, desk, draw }: StageParts): Stage {
  let cells: ReadonlyMap<HTMLElement, Role> = new Map();
  /** What the letters were fitted to. */
  let fitted = '';

  const told = (): readonly HTMLElement[] => [...cells].flatMap(([cell, role]) => (role === 'stage' ? [cell] : []));
  /** What has just come to light is in view, with as much after it as there is room for. */
  const showLatest = (): void => {
    const bottom = toldBottom(sheet, told());
    const [cell] = told();
    const last = cell?.dataset['reveals']?.split(' ').at(-1) ?? '';
    const part = cell?.querySelector<HTMLElement>(PARTS[last] ?? PARTS['result'] ?? '');
    const top = part === null || part === undefined ? bottom : part.getBoundingClientRect().top - sheet.getBoundingClientRect().top + sheet.scrollTop - ROOM_AROUND;
    const to = Math.max(0, Math.min(bottom - sheet.clientHeight, top));
    if (bottom > sheet.scrollTop + sheet.clientHeight || bottom <= sheet.scrollTop) sheet.scrollTop = to;
  };

  // What stands beside stays there while what is told goes on screen by screen.
  const follow = (): void => sheet.style.setProperty('--scrolled', `${sheet.scrollTop}px`);
  sheet.addEventListener('scroll', follow, { passive: true });

  const fits = (): boolean =>
    isWhole(sheet) && (wall.hidden || isWhole(wall)) && [...cells].every(([cell, role]) => areLinesWhole(cell) && (role !== 'input' || isWhole(cell)));
  const fitsAcross = (): boolean => isWholeAcross(sheet) && (wall.hidden || isWholeAcross(wall)) && [...cells.keys()].every(areLinesWhole);
  const roomFor = (cell: HTMLElement): number => {
    const all = cells.get(cell) === 'drawing' ? cell.clientHeight : sheet.clientHeight;
    const rest = [...cell.querySelectorAll<HTMLElement>('figcaption, .margin, .problem')].reduce((sum, one) => sum + one.offsetHeight, 0);
    return all - rest - ROOM_AROUND;
  };
  const fitLetters = (): void => {
    const sizes = sizesFor(innerWidth, innerHeight);
    setLargest(sizes, fits);
    // What is taller than the window at any size comes screen by screen, in the fewest.
    if (!fits()) setLargest(sizes.slice(-1), fitsAcross);
  };
  const fitNow = (): void => {
    sheet.removeAttribute('data-alone');
    const hasPicture = [...cells.keys()].filter((cell) => cell.classList.contains('cell-figure'));
    for (const cell of hasPicture) fitPicture(cell, () => roomFor(cell));
    fitLetters();
    // A line that has no room beside the drawing is worth more than the drawing; a fraction that has none at all stands in line.
    if (!fitsAcross() && [...cells.values()].includes('drawing')) {
      sheet.setAttribute('data-alone', '');
      fitLetters();
    }
    if (!fitsAcross() && [...cells.keys()].flatMap(linesTooWide).filter(putInLine).length > 0) fitLetters();
    for (const cell of hasPicture) fitPicture(cell, () => roomFor(cell));
    // Its picture takes the room that smaller letters leave; what stands below it may still be too much.
    if (hasPicture.length > 0 && !fits()) fitLetters();
    sheet.scrollTop = 0;
  };

  return {
    put: (cast, reveals) => {
      const before = cells;
      cells = new Map([...cast].flatMap(([id, role]) => {
        const element = desk.element(id);
        return element === undefined ? [] : [[element, role] as const];
      }));
      for (const cell of before.keys()) if (!cells.has(cell)) takeDown(cell);
      sheet.toggleAttribute('data-beside', [...cells.values()].some((role) => role !== 'stage'));
      sheet.toggleAttribute('data-at-hand', [...cells.values()].includes('input'));
      for (const [cell, role] of cells) {
        cell.dataset['lecture'] = role;
        cell.dataset['reveals'] = (role === 'stage' ? reveals : ['words', 'result']).join(' ');
        drawWhole(cell, { desk, draw });
      }
    },
    fit: (shown) => {
      const now = typeof shown === 'string' ? [shown, ...[...cells].map(([cell, role]) => `${cell.id} ${role}`)].join('\n') : '';
      if (now === '' || now !== fitted || !fits()) fitNow();
      fitted = now;
      showLatest();
    },
    keepWhole: () => {
      if (!fits()) fitNow();
    },
    turn: (way) => turned(wall.hidden ? { scrolls: sheet, bottom: toldBottom(sheet, told()) } : { scrolls: wall, bottom: wall.scrollHeight }, way),
    clear: () => {
      document.documentElement.style.removeProperty('font-size');
      sheet.style.removeProperty('--scrolled');
      delete sheet.dataset['view'];
      for (const name of ['data-beside', 'data-at-hand', 'data-alone']) sheet.removeAttribute(name);
      for (const cell of cells.keys()) takeDown(cell);
      cells = new Map();
      // Those that were drawn anew meanwhile, too.
      for (const figure of sheet.querySelectorAll('.cell-figure')) veilDrawing(figure, '', desk, new Set());
      fitted = '';
    },
  };
}

/** As it now is, with all its equations and without what is not told yet. */
function drawWhole(cell: HTMLElement, { desk, draw }: Pick<StageParts, 'desk' | 'draw'>): void {
  const id = cell.dataset['cell'] ?? '';
  const block = desk.block(id);
  if (block !== undefined) draw(block);
  veilDrawing(cell, id, desk);
  setEquationsIn(cell);
  enlargeFractions(cell, true);
}

function setLargest(sizes: readonly number[], isFit: () => boolean): void {
  const { style } = document.documentElement;
  const setSize = (size: number | undefined): void => void (style.fontSize = `${size ?? 16}px`);
  setSize(largestFitting(sizes, (size) => {
    setSize(size);
    return isFit();
  }, sizes.find((size) => style.fontSize === `${size}px`)));
}

/** As it is on the sheet. */
function takeDown(cell: HTMLElement): void {
  delete cell.dataset['lecture'];
  delete cell.dataset['reveals'];
  enlargeFractions(cell, false);
  freePicture(cell);
}

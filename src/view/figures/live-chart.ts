import { composed, isolatedQuotes } from '../../core/problem/index.ts';
import { cellAnchor } from '../../report/index.ts';
import type { Chart, ChartOptions, ChartPoint } from '../../figures/charts/index.ts';
import { bringCharts, canDrawCharts } from '../../figures/at-hand/index.ts';
import { drawingOf } from '../markup.ts';
import { partWords } from '../part-words.ts';
import { whenStill } from '../still.ts';
import { followWidth, ON_PAPER, pictureLetters } from './follow-width.ts';

type Draw = (options: ChartOptions) => Chart;

interface LiveChart {
  /** Draws the chart of a cell as it is now. */
  show(blockId: string, draw: Draw, label: string): void;
  /** Draws it again for the width and the letters it has now. */
  redraw(): void;
  /** Draws it at once for paper, and afterwards again for the page. */
  onPaper(isPrinting: boolean): void;
}

const shown = new WeakMap<HTMLElement, LiveChart>();

/** The live chart of an element, made at the first call. */
export function chartAt(element: HTMLElement): LiveChart {
  let chart = shown.get(element);
  if (chart === undefined) {
    chart = createChart(element);
    shown.set(element, chart);
  }
  return chart;
}

/** Draws the chart of an element again at once; nothing where it has none. */
export function redrawChart(element: HTMLElement): void {
  shown.get(element)?.redraw();
}

/** What stands on paper in the place of a chart that is not drawn. Nothing is left out in silence: it was printed too soon, or what draws charts does not come. */
let notBrought = 'This chart is not drawn yet: print again in a moment.';

/** After the sheet has come to life, ms, what draws its charts is brought, though none is in view. */
const SOON = 200;
/** A pointer further away than this, px, means no point of the chart. */
const REACH = 48;
const HELP = 'Point at a mark, or step through them with the arrow keys, to read its values.';
/** Points that Page Up and Page Down pass over. */
const STRIDE = 10;

/**
 * Drawn for the width it has, after the page has been painted and again whenever width or data change. Its values are
 * reached with the pointer and, once it has the focus, with the arrow keys, Home and End; Escape lets go. What is read
 * stands below the chart and is announced.
 */
function createChart(element: HTMLElement): LiveChart {
  let current: { blockId: string; draw: Draw; label: string } | undefined;
  let width = 0;
  let isPrinting = false;
  const parts = partsIn(element);
  const reader = readerIn(parts);

  const draw = (): void => {
    if (current === undefined) return;
    const isShown = width > 0 || isPrinting;
    if (!canDrawCharts()) {
      parts.paper.textContent = isPrinting ? notBrought : '';
      if (isShown) bring();
      return;
    }
    if (!isShown) return;
    const size = isPrinting ? ON_PAPER : { width, ...pictureLetters(element) };
    const chart = current.draw({ ...size, idPrefix: cellAnchor(current.blockId).replace(/[^A-Za-z0-9]+/g, '-') });
    parts.paper.replaceChildren(drawingOf(chart.svg));
    const sentence = element.parentElement?.querySelector('figcaption > .sentence');
    if (sentence) sentence.textContent = isolatedQuotes(chart.sentence);
    reader.follow(chart);
  };

  /** What draws charts comes with the first of them. */
  const bring = (): void => void bringCharts().then(drawSoon, (error: unknown) => void (parts.reading.textContent = notBrought = partWords(error)))
    .finally(() => element.removeAttribute('aria-busy'));
  let waiting = false;
  // A chart takes longer than a line of the sheet: the frame with the results is painted first.
  const drawSoon = (): void => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => setTimeout(() => {
      waiting = false;
      // Where none was before, it takes room, and moves what lies below.
      whenStill(element, draw);
    }));
  };
  followWidth(element, (next) => {
    width = next;
    drawSoon();
  });

  return {
    redraw: () => {
      width = element.clientWidth;
      draw();
    },
    onPaper: (now) => {
      isPrinting = now;
      draw();
    },
    show: (blockId, drawIt, label) => {
      if (current?.draw === drawIt) return;
      current = { blockId, draw: drawIt, label };
      // A chart out of view has no width and waits; the keyboard and screen readers come to it all the same.
      parts.reach.setAttribute('aria-label', composed`Values of ${label === '' ? 'the chart' : label}`);
      reader.tell();
      drawSoon();
      // Printed, a chart is drawn at once, whether it was ever in view or not.
      if (canDrawCharts()) return;
      element.setAttribute('aria-busy', 'true');
      setTimeout(bring, SOON);
    },
  };
}

/** The mark that is read, by pointer or keys. */
interface Reader {
  /** Another drawing of the chart: what was read is read in it. */
  follow(chart: Chart): void;
  tell(): void;
}

function readerIn({ paper, ring, reach, reading }: ChartParts): Reader {
  let points: readonly ChartPoint[] = [];
  let viewWidth = 1;
  let at: number | undefined;
  /** The chart may be shown smaller than it is laid out. */
  const scale = (): number => (paper.clientWidth === 0 ? 1 : paper.clientWidth / viewWidth);
  const read = (index: number | undefined): void => {
    const point = index === undefined ? undefined : points[index];
    at = point === undefined ? undefined : index;
    ring.hidden = point === undefined;
    reading.classList.toggle('help', point === undefined);
    reading.textContent = point === undefined ? (points.length === 0 ? '' : HELP) : isolatedQuotes(point.tell());
    sayPlace(reach, at, points.length);
    if (point === undefined) return;
    ring.style.left = `${(100 * point.x) / viewWidth}%`;
    ring.style.top = `${point.y * scale()}px`;
  };
  const nearest = (event: PointerEvent): void => {
    const box = paper.getBoundingClientRect();
    const best = nearestOf(points, (event.clientX - box.left) / scale(), (event.clientY - box.top) / scale());
    if (best >= 0 && best !== at) read(best);
  };
  reach.addEventListener('keydown', (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || points.length === 0) return;
    const to = placeByKey(event.key, at, points.length - 1);
    if (to === undefined && (event.key !== 'Escape' || at === undefined)) return;
    event.preventDefault();
    read(to);
  });
  reach.addEventListener('pointermove', nearest);
  reach.addEventListener('pointerdown', nearest);
  reach.addEventListener('pointerleave', (event) => {
    if (event.pointerType === 'mouse' && document.activeElement !== reach) read(undefined);
  });
  reach.addEventListener('blur', () => read(undefined));
  return {
    follow: (chart) => {
      points = chart.points;
      viewWidth = chart.viewBox.width;
      read(at === undefined ? undefined : Math.min(at, points.length - 1));
    },
    tell: () => read(at),
  };
}

/** For those who ask the slider. */
function sayPlace(reach: HTMLElement, at: number | undefined, count: number): void {
  reach.setAttribute('aria-valuemin', '0');
  reach.setAttribute('aria-valuemax', String(count));
  reach.setAttribute('aria-valuenow', String(at === undefined ? 0 : at + 1));
  reach.setAttribute('aria-valuetext', at === undefined ? 'no mark read' : `mark ${at + 1} of ${count}`);
}

interface ChartParts {
  readonly paper: HTMLElement;
  /** About the mark that is read. */
  readonly ring: HTMLElement;
  /** The control that lies over the picture. */
  readonly reach: HTMLElement;
  readonly reading: HTMLElement;
}

/** The picture keeps its own description; the control over it is left out on paper. */
function partsIn(element: HTMLElement): ChartParts {
  const made = (name: string, className: string, attributes: Readonly<Record<string, string>> = {}): HTMLElement => {
    const part = document.createElement(name);
    part.className = className;
    for (const [key, value] of Object.entries(attributes)) part.setAttribute(key, value);
    return part;
  };
  const paper = made('div', 'paper');
  const ring = made('span', 'reading-ring');
  ring.hidden = true;
  const reach = made('div', 'chart-reach', { role: 'slider', 'aria-orientation': 'horizontal' });
  reach.tabIndex = 0;
  const reading = made('p', 'chart-reading', { role: 'status', 'aria-live': 'polite' });
  const stage = made('div', 'chart-stage');
  stage.append(paper, ring, reach);
  element.replaceChildren(stage, reading);
  return { paper, ring, reach, reading };
}

/** The mark that a key goes to; undefined for other keys. @param at the mark that is read, if one is */
function placeByKey(key: string, at: number | undefined, last: number): number | undefined {
  const steps: Readonly<Record<string, number | undefined>> = {
    ArrowRight: (at ?? -1) + 1, ArrowUp: (at ?? -1) + 1, ArrowLeft: (at ?? last + 1) - 1, ArrowDown: (at ?? last + 1) - 1,
    PageDown: (at ?? -1) + STRIDE, PageUp: (at ?? last + 1) - STRIDE, Home: 0, End: last,
  };
  const to = steps[key];
  return to === undefined ? undefined : Math.max(0, Math.min(last, to));
}

/** The mark nearest to a place, within reach of it; −1 where none is. */
function nearestOf(points: readonly ChartPoint[], x: number, y: number): number {
  let [best, least] = [-1, REACH];
  points.forEach((point, i) => {
    const distance = Math.hypot(point.x - x, point.y - y);
    if (distance < least) [best, least] = [i, distance];
  });
  return best;
}

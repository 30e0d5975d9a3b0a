import chartCss from '../figures/charts.css?raw';
import drawingCss from '../figures/drawings.css?raw';
import tokensCss from '../report/styles/tokens.css?raw';
import { isTouchedBySlips, presentFigure, restsOnTrial, slipSentence, trialSentence, type PresentContext } from '../report/index.ts';
import { cellIn, type FigureCell } from '../sheet/index.ts';

const WIDTH = 700;
const TEXT_SIZE = 15;
/** Dots of the picture to one px of the drawing: 300 to the inch where the drawing is printed 7 inches wide. */
const SCALE = 3;

/**
 * A drawing as an SVG file of its own: with its looks, on white, in the letters of the page.
 * @param pageCss the page's style sheets, which hold the faces
 * @returns undefined where the cell is no drawing that is known
 */
export function drawingFile(cellId: string, context: PresentContext, pageCss: string): string | undefined {
  const cell = cellIn(context.document.blocks.find((block) => block.id === cellId), 'figure');
  return cell === undefined ? undefined : standAlone(cell, context, pageCss);
}

function standAlone(cell: FigureCell, context: PresentContext, pageCss: string): string | undefined {
  const { draw, chart } = presentFigure(cell, context);
  const drawing = (draw ?? chart)?.({ width: WIDTH, idPrefix: 'drawing', textSize: TEXT_SIZE });
  if (drawing === undefined) return undefined;
  const colours = /:root\s*\{([^}]*)\}/.exec(tokensCss)?.[1] ?? '';
  const css = [...facesOf(pageCss), `svg.drawing {${colours}--paper: #fff; }`, drawingCss, ...(draw === undefined ? [chartCss] : [])].join('\n').replaceAll(']]>', '');
  const { width, height } = drawing.viewBox;
  const sentences = [
    ...(restsOnTrial(cell.id, context) ? [trialSentence(context) ?? ''] : []),
    ...(isTouchedBySlips(cell.id, context) ? [slipSentence(context) ?? ''] : []),
  ];
  const marks = sentences.flatMap(markLines);
  const paper = `<style><![CDATA[\n${css}\n]]></style><rect width="${width}" height="${height}" fill="#fff"/>`;
  const file = withSize(drawing.svg, width, height).replace(/^<svg\b[^>]*>/, (start) => start + paper);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${marks.length === 0 ? file : underMark(file, marks, width, height)}\n`;
}

const MARK_LINE = 20;
const MARK_SIGNS = 92;

/** The sentence in lines that the width holds. */
function markLines(sentence: string): readonly string[] {
  const lines: string[] = [];
  for (const word of sentence.split(' ')) {
    const last = lines.at(-1);
    if (last === undefined || last.length + word.length >= MARK_SIGNS) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
}

/** The drawing below a band that says which trial values stand or which slips are switched on: it can't be taken for a result. */
function underMark(file: string, lines: readonly string[], width: number, height: number): string {
  const band = lines.length * MARK_LINE + 12;
  const escaped = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
  const rows = lines.map((line, i) => `<text x="10" y="${(i + 1) * MARK_LINE}">${escaped(line)}</text>`).join('');
  const all = band + height;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${all}" viewBox="0 0 ${width} ${all}"><rect width="${width}" height="${all}" fill="#fff"/>`
    + `<rect x="1" y="1" width="${width - 2}" height="${band - 2}" fill="none" stroke="#a33b20" stroke-width="2" stroke-dasharray="6 4"/>`
    + `<g font-family="sans-serif" font-size="14" font-weight="600" fill="#a33b20">${rows}</g><g transform="translate(0 ${band})">${file}</g></svg>`;
}

/** Start tag with a size and a name space, which a file of its own needs. */
function withSize(svg: string, width: number, height: number): string {
  return svg.replace(/^<svg\b[^>]*>/, (start) => {
    const sized = /\bwidth="/.test(start) ? start : start.replace(/>$/, ` width="${width}" height="${height}">`);
    return sized.includes('xmlns=') ? sized : sized.replace('<svg', '<svg xmlns="http://www.w3.org/2000/svg"');
  });
}

/** The upright and the slanted face of ordinary weight that the lettering is laid out for. */
function facesOf(pageCss: string): readonly string[] {
  return [...pageCss.matchAll(/@font-face\s*\{[^}]*\}/g)]
    .map(([rule]) => rule)
    .filter((rule) => /font-family:\s*["']?KaTeX_Main\b/.test(rule) && !/font-weight:\s*(?:700|bold)/.test(rule));
}

/** The picture of an SVG file. It goes through a data address: a page opened from a file may not read its own blobs back. */
export async function pictureOf(svg: string): Promise<Blob> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth * SCALE;
  canvas.height = image.naturalHeight * SCALE;
  const paper = canvas.getContext('2d');
  if (paper === null) throw new Error('the browser gives no canvas to draw on');
  paper.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob === null ? reject(new Error('the browser makes no picture of the canvas')) : resolve(blob)), 'image/png');
  });
}

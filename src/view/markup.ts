import { rememberedTexts } from '../core/remembered/index.ts';

/**
 * The one place where text becomes nodes. Only what our own code made comes here: equations by KaTeX, prose by the report
 * layer (which lets no HTML through), and drawings. Nothing from a document, a file or the clipboard ever does.
 */
let parser: DOMParser | undefined;
const readOnce = rememberedTexts(1500, (ownHtml) => {
  const fragment = document.createDocumentFragment();
  parser ??= new DOMParser();
  const { body } = parser.parseFromString(ownHtml, 'text/html');
  fragment.append(...body.childNodes);
  return fragment;
});

/** The nodes of our own HTML. The same text is read once and copied after that. */
export function fragmentOf(ownHtml: string): DocumentFragment {
  return document.importNode(readOnce(ownHtml), true);
}

/** A drawing of our own. Throws where it is no well-formed SVG, which is a fault of the drawing. */
export function drawingOf(ownSvg: string): SVGSVGElement {
  parser ??= new DOMParser();
  const read = parser.parseFromString(ownSvg, 'image/svg+xml').documentElement;
  const node: Node = document.importNode(read, true);
  if (!(node instanceof SVGSVGElement)) throw new Error('a drawing is not well-formed SVG');
  return node;
}

import { PAPER_LAYOUT } from '../../report/index.ts';

/** Tells the width of an element, whole px, as soon as it is laid out and again whenever it changes. */
export function followWidth(element: HTMLElement, tell: (width: number) => void): void {
  let width = 0;
  const observer = new ResizeObserver(([entry]) => {
    const next = Math.round(entry?.contentRect.width ?? 0);
    if (next < 1 || next === width) return;
    width = next;
    // What is drawn for the new width has another height, which is no news; told of it in the same frame, the browser remarks an error.
    observer.unobserve(element);
    tell(width);
    requestAnimationFrame(() => observer.observe(element));
  });
  observer.observe(element);
}

/**
 * Height of the letters, px, where the page asks for larger ones than a drawing has by itself: on a projector. It stands on the
 * element itself, where it can be read without the page being laid out for it.
 */
export function pictureLetters(element: HTMLElement): { readonly textSize?: number } {
  const size = Number.parseFloat(element.style.getPropertyValue('--picture-letters'));
  return Number.isFinite(size) ? { textSize: size } : {};
}

/** Width and letters of a picture on paper, px: it fits between the margins of A4 and Letter, its letters come out at 9 to 10 points. */
export const ON_PAPER = { width: PAPER_LAYOUT.width, textSize: PAPER_LAYOUT.textSize } as const;

import type { MarkPoint } from '../../sheet/index.ts';

const SIDE = 132;
const TIMES = 3;

/** Between it and the edge of the picture, px. */
const GAP = 4;

/** What lies under a finger, enlarged beside it, with the place itself in its middle. */
export function createLoupe(): { readonly element: HTMLElement; show(image: HTMLImageElement, at: MarkPoint, seenThrough: HTMLElement): void; hide(): void } {
  const element = document.createElement('div');
  element.className = 'loupe';
  element.setAttribute('aria-hidden', 'true');
  element.hidden = true;
  const canvas = document.createElement('canvas');
  canvas.width = SIDE;
  canvas.height = SIDE;
  element.append(canvas);
  return {
    element,
    show: (image, at, seenThrough) => {
      const context = canvas.getContext('2d');
      const shown = image.clientWidth;
      if (context === null || shown === 0) return;
      const dots = (SIDE / TIMES) * (image.naturalWidth / shown);
      context.clearRect(0, 0, SIDE, SIDE);
      context.drawImage(image, at.x - dots / 2, at.y - dots / 2, dots, dots, 0, 0, SIDE, SIDE);
      for (const [width, colour] of [[4, '#fff'], [1.5, '#000']] as const) {
        context.lineWidth = width;
        context.strokeStyle = colour;
        context.beginPath();
        for (const end of [0, SIDE]) {
          context.moveTo(SIDE / 2, end);
          context.lineTo(SIDE / 2, SIDE / 2 + (end === 0 ? -8 : 8));
          context.moveTo(end, SIDE / 2);
          context.lineTo(SIDE / 2 + (end === 0 ? -8 : 8), SIDE / 2);
        }
        context.stroke();
      }
      // In the corner away from the finger, of what is seen of the picture.
      const { scrollLeft, scrollTop, clientWidth } = seenThrough;
      const isAtEnd = (at.x / image.naturalWidth) * shown - scrollLeft < clientWidth / 2;
      element.style.left = `${scrollLeft + (isAtEnd ? clientWidth - SIDE - 2 * GAP : GAP)}px`;
      element.style.top = `${scrollTop + GAP}px`;
      element.hidden = false;
    },
    hide: () => {
      element.hidden = true;
    },
  };
}

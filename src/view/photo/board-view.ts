/** What of a picture is seen in its place on the page: all of it, or a part, enlarged, which is moved as any part of a page that scrolls. */
export interface BoardView {
  /** What is enlarged: picture and marks. */
  readonly stage: HTMLElement;
  /** @param at place of the window that stays where it is; the middle of what is seen unless said */
  enlarge(times: number, at?: WindowPlace): void;
  whole(): void;
  /** A place of the picture that is out of sight comes into it. */
  reveal(place: PicturePlace): void;
}

/** A place in the window, px. */
export interface WindowPlace {
  readonly clientX: number;
  readonly clientY: number;
}

/** A place as shares of the picture's width and height. */
export interface PicturePlace {
  readonly across: number;
  readonly down: number;
}

const MOST = 8;
/** Less than this is all of it, which a pinch seldom meets. */
const WHOLE = 1.05;
/** A wheel that goes by so many px enlarges e times. */
const WHEEL = 240;
/** What comes into sight keeps so far from the edge, px. */
const INSIDE = 24;

/** @param element what the picture is seen through */
export function createBoardView(element: HTMLElement): BoardView {
  const stage = document.createElement('div');
  stage.className = 'stage';
  let enlargement = 1;
  const set = (next: number, { clientX, clientY }: WindowPlace): void => {
    const box = element.getBoundingClientRect();
    const [x, y] = [clientX - box.left, clientY - box.top];
    const [toX, toY] = [(element.scrollLeft + x) / enlargement, (element.scrollTop + y) / enlargement];
    enlargement = next < WHOLE ? 1 : Math.min(MOST, next);
    stage.style.setProperty('--enlargement', String(enlargement));
    element.classList.toggle('enlarged', enlargement > 1);
    element.scrollLeft = toX * enlargement - x;
    element.scrollTop = toY * enlargement - y;
  };
  // With a modifier, as the wheel enlarges a page; pinching on a touch pad comes as that too.
  element.addEventListener('wheel', (event) => {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    set(enlargement * Math.exp(-event.deltaY / WHEEL), event);
  }, { passive: false });
  return {
    stage,
    enlarge: (times, at = middleOf(element)) => set(enlargement * times, at),
    whole: () => set(1, middleOf(element)),
    reveal: ({ across, down }) => {
      if (enlargement === 1) return;
      element.scrollLeft = kept(element.scrollLeft, across * stage.clientWidth, element.clientWidth);
      element.scrollTop = kept(element.scrollTop, down * stage.clientHeight, element.clientHeight);
    },
  };
}

/** How far is scrolled to see a place, as little as can be. */
function kept(scrolled: number, place: number, seen: number): number {
  return Math.min(Math.max(scrolled, place + INSIDE - seen), place - INSIDE);
}

function middleOf(element: HTMLElement): WindowPlace {
  const { left, top, width, height } = element.getBoundingClientRect();
  return { clientX: left + width / 2, clientY: top + height / 2 };
}

/** A finger as the browser has it from the glass, so that it scrolls what a finger scrolls. */
import type { CDPSession, Locator, Page } from 'playwright';

/** A place in the window, px. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

export async function finger(page: Page): Promise<CDPSession> {
  return page.context().newCDPSession(page);
}

/** All fingers that lie on the glass then; none are lifted. */
export async function touch(hand: CDPSession, type: 'touchStart' | 'touchMove' | 'touchEnd', ...at: readonly Place[]): Promise<void> {
  await hand.send('Input.dispatchTouchEvent', { type, touchPoints: at.map((place, id) => ({ ...place, id })) });
}

export async function swipe(hand: CDPSession, from: Place, by: Place): Promise<void> {
  await touch(hand, 'touchStart', from);
  for (let i = 1; i <= 10; i += 1) await touch(hand, 'touchMove', { x: from.x + (by.x * i) / 10, y: from.y + (by.y * i) / 10 });
  await touch(hand, 'touchEnd');
}

export async function tap(hand: CDPSession, at: Place): Promise<void> {
  await touch(hand, 'touchStart', at);
  await touch(hand, 'touchEnd');
}

export async function middleOf(part: Locator): Promise<Place> {
  const box = await part.boundingBox();
  if (box === null) throw new Error('it is not on the page');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

import { isTextField } from '../focus.ts';
import { lectureActionOf, whenHeld, type LectureAction } from './keys.ts';

interface Heard {
  readonly act: (action: LectureAction) => void;
  readonly isDark: () => boolean;
  readonly lighten: () => void;
}

/** So far a finger moves, px, before it means another station. */
const SWIPE = 60;

/** Keys, a presenter's remote, and swipes. */
export function listenForLecture(root: HTMLElement, { act, isDark, lighten }: Heard): () => void {
  /** A key that is held goes on by one section, however long it is held. */
  let wasHeld = false;
  const press = (event: KeyboardEvent): void => {
    if (event.isComposing) return;
    if (isDark()) {
      event.preventDefault();
      if (!event.repeat) lighten();
      return;
    }
    const target = event.target instanceof HTMLElement ? event.target : document.body;
    if (target.closest('[role="menu"]') !== null) return;
    const isTyping = hasKeysOfItsOwn(target);
    // A blank has given back what stood in it before; the keys belong to the lecture again.
    if (event.key === 'Escape' && isTyping) {
      event.preventDefault();
      target.closest<HTMLElement>('[data-cell]')?.focus({ preventScroll: true });
      return;
    }
    if (event.defaultPrevented || (event.key === ' ' && target.matches('button, summary, a, [type="checkbox"]'))) return;
    const action = lectureActionOf(event, isTyping);
    if (action === undefined) return;
    event.preventDefault();
    const meant = event.repeat ? whenHeld(action) : action;
    if (meant !== undefined && !(event.repeat && wasHeld)) act(meant);
    wasHeld = event.repeat;
  };
  let from: { readonly id: number; readonly x: number; readonly y: number } | undefined;
  const touch = (event: PointerEvent): void => {
    const isFree = event.target instanceof Element && event.target.closest('input, textarea, select, button, .knob, .chart-reach, .board, .ruled') === null;
    from = event.pointerType === 'touch' && isFree ? { id: event.pointerId, x: event.clientX, y: event.clientY } : undefined;
  };
  const lift = (event: PointerEvent): void => {
    if (from === undefined || from.id !== event.pointerId) return;
    const [across, down] = [event.clientX - from.x, event.clientY - from.y];
    from = undefined;
    if (Math.abs(across) > SWIPE && Math.abs(across) > 2 * Math.abs(down)) act(across < 0 ? 'next' : 'back');
  };
  document.addEventListener('keydown', press);
  root.addEventListener('pointerdown', touch);
  root.addEventListener('pointerup', lift);
  return () => {
    document.removeEventListener('keydown', press);
    root.removeEventListener('pointerdown', touch);
    root.removeEventListener('pointerup', lift);
  };
}

/** Fields, lists, and places that are moved with the arrow keys. */
function hasKeysOfItsOwn(target: HTMLElement): boolean {
  return isTextField(target) || target.matches('select, [type="radio"], [role="slider"]');
}

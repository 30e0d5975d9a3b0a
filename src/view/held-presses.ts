import { isTextField } from './focus.ts';

/**
 * Presses of keys that are meant for what is still being brought are kept back and done once it is there, in their order, where the focus is then. Gives the way to let them go.
 * @param isFor whether a press is for it
 */
export function heldPresses(isFor: (press: KeyboardEvent) => boolean): () => void {
  const held: KeyboardEvent[] = [];
  const hold = (event: KeyboardEvent): void => {
    if (event.isComposing || !isFor(event)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    held.push(event);
  };
  document.addEventListener('keydown', hold, true);
  return () => {
    document.removeEventListener('keydown', hold, true);
    for (const event of held) press(event, document.activeElement ?? document.body);
  };
}

/** A key pressed by the page itself presses no button and types nothing, so that both are done here. */
function press(event: KeyboardEvent, at: Element): void {
  const { key, ctrlKey, metaKey, altKey } = event;
  const goesOn = at.dispatchEvent(new KeyboardEvent(event.type, event));
  if (goesOn && at instanceof HTMLButtonElement && (key === 'Enter' || key === ' ')) at.click();
  if (!goesOn || !isTextField(at) || key.length !== 1 || ctrlKey || metaKey || altKey) return;
  at.setRangeText(key, at.selectionStart ?? 0, at.selectionEnd ?? 0, 'end');
  at.dispatchEvent(new InputEvent('input', { bubbles: true, data: key, inputType: 'insertText' }));
}

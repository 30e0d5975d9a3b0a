/**
 * Presses of keys that are meant for what is still being brought are kept back and done once it is there, in their order. Gives the way to let them go.
 * @param isFor whether a press is for it
 */
export function heldPresses(isFor: (press: KeyboardEvent) => boolean): () => void {
  const held: KeyboardEvent[] = [];
  const hold = (event: KeyboardEvent): void => {
    if (!isFor(event)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    held.push(event);
  };
  document.addEventListener('keydown', hold, true);
  return () => {
    document.removeEventListener('keydown', hold, true);
    for (const event of held) {
      const target = event.target instanceof Element && event.target.isConnected ? event.target : document.body;
      target.dispatchEvent(new KeyboardEvent(event.type, event));
    }
  };
}

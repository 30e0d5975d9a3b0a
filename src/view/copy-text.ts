/**
 * Puts a text on the clipboard; whether the browser let the page do so. A page over plain http in a laboratory's network has no clipboard of its own
 * (it comes with a secure context alone), but may have the browser copy what is chosen in a field.
 */
export async function copyText(text: string): Promise<boolean> {
  const clipboard = (navigator as { clipboard?: Clipboard }).clipboard;
  if (clipboard !== undefined && await clipboard.writeText(text).then(() => true, () => false)) return true;
  return copyChosen(text);
}

/** The focus is where it was afterwards. */
function copyChosen(text: string): boolean {
  const before = document.activeElement;
  const field = document.createElement('textarea');
  field.className = 'visually-hidden';
  field.value = text;
  document.body.append(field);
  field.select();
  const done = document.execCommand('copy');
  field.remove();
  if (before instanceof HTMLElement) before.focus({ preventScroll: true });
  return done;
}

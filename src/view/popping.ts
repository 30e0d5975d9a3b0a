/** How something is unfolded over the page and closed again. */
interface Popping {
  readonly unfold: () => void;
  readonly close: () => void;
}

/**
 * An element over all others, which Escape closes wherever the focus is. Chrome before 114, Firefox before 125 and Safari before 17 have no popover: there it is hidden
 * and shown by this hand.
 */
export function popping(element: HTMLElement, closed: () => void): Popping {
  return 'showPopover' in HTMLElement.prototype ? byBrowser(element, closed) : byHand(element, closed);
}

function byBrowser(element: HTMLElement, closed: () => void): Popping {
  element.setAttribute('popover', 'auto');
  element.addEventListener('toggle', (event) => {
    if (event.newState === 'closed') closed();
  });
  return {
    unfold: () => element.showPopover(),
    close: () => {
      if (element.matches(':popover-open')) element.hidePopover();
    },
  };
}

function byHand(element: HTMLElement, closed: () => void): Popping {
  element.hidden = true;
  const close = (): void => {
    if (element.hidden) return;
    document.removeEventListener('keydown', closeByEscape, true);
    // Asked before it is hidden, as with it the focus within goes.
    closed();
    element.hidden = true;
  };
  const closeByEscape = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.isComposing) return;
    event.preventDefault();
    event.stopPropagation();
    close();
  };
  return {
    unfold: () => {
      element.hidden = false;
      document.addEventListener('keydown', closeByEscape, true);
    },
    close,
  };
}

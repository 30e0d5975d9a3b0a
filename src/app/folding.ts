/** Does it and folds the list up again, with the focus back on its heading. */
export function closing(action: () => void): (event: Event) => void {
  return (event) => {
    fold((event.currentTarget as HTMLElement).closest('details'));
    action();
  };
}

/** Escape within an open list folds it up. */
export function foldByEscape(event: KeyboardEvent): void {
  const open = (event.target as HTMLElement).closest<HTMLDetailsElement>('details[open]');
  if (event.key !== 'Escape' || open === null) return;
  event.preventDefault();
  fold(open);
}

function fold(details: HTMLDetailsElement | null): void {
  if (details === null) return;
  details.open = false;
  details.querySelector('summary')?.focus();
}

/** Does it and leaves the list open, with the focus on its heading: the control itself may go. */
export function keepingOpen(action: () => void): (event: Event) => void {
  return (event) => {
    (event.currentTarget as HTMLElement).closest('details')?.querySelector('summary')?.focus();
    action();
  };
}

/**
 * Marks the head of the page while it is scrolled out of view, so that what is told there can be seen all the same: the newest note then stands at the
 * upper edge of the window. The head keeps its height meanwhile, so that nothing below it moves.
 */
export function watchHead(head: HTMLElement): void {
  new IntersectionObserver(([now]) => {
    // In the lecture the head is not there at all.
    const isAway = now !== undefined && !now.isIntersecting && now.boundingClientRect.height > 0;
    head.style.minHeight = isAway ? `${now.boundingClientRect.height}px` : '';
    head.classList.toggle('away', isAway);
  }).observe(head);
}

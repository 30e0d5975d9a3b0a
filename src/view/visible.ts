/**
 * Whether an element has a place on the page: nothing around it takes it away. Where asked, nothing makes it unseen either. Safari has `checkVisibility` from 17.4 on;
 * there what is folded up has no box.
 */
export function isVisible(element: Element, { andSeen = false } = {}): boolean {
  // The first name is the one of Chrome before 121.
  if ('checkVisibility' in Element.prototype) return element.checkVisibility({ checkVisibilityCSS: andSeen, visibilityProperty: andSeen });
  return element.getClientRects().length > 0 && (!andSeen || getComputedStyle(element).visibility === 'visible');
}

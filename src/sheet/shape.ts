import type { SheetDocument } from './types.ts';

/*
 * An edit of one cell leaves the places, ids and kinds of all blocks, every text of prose and every part on demand as they were. What hangs on nothing
 * else is worked out once for all documents of one shape, and not for each edit.
 */
const shapes = new WeakMap<SheetDocument, SheetDocument>();

/** The document that stands for all of its shape: the same object for each of them. */
export function shapeOf(document: SheetDocument): SheetDocument {
  return shapes.get(document) ?? document;
}

/** The same document, as one that has the shape of an earlier one. */
export function shapedLike(document: SheetDocument, earlier: SheetDocument): SheetDocument {
  shapes.set(document, shapeOf(earlier));
  return document;
}

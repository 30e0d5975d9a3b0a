/** What opens at a line when somebody asks for it: a part of the page by itself (`panels-at-hand.ts`). */
export { budgetPanels } from './cells/budget-panel.ts';
export { measuredFields } from './cells/measured-fields.ts';
export { renameForm } from './cells/rename.ts';
export { rowsInPart } from './cells/rows-in.ts';
export { samplesPart } from './cells/samples.ts';
export { createMenu } from './menu.ts';
export { sourceEditor } from './source-editor.ts';
export { againstPart } from './sweep/against.ts';
export { workBackPart } from './sweep/work-back.ts';

import { nearNames, type Problem } from '../../core/problem/index.ts';
import { LECTURE, lectureMarks, lecturePredictions } from '../../sheet/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import { headingsOf } from '../prose.ts';

/** Names of the lecture entry that are neither a cell nor a section: the lecture would tell everything as if they were not there. */
export function lectureWarnings(document: SheetDocument): readonly Problem[] {
  const names = [...lectureMarks(document).keys(), ...lecturePredictions(document).keys()];
  if (names.length === 0) return [];
  const known = document.blocks.flatMap((block) => (block.kind === 'prose' ? headingsOf(block.source).map(({ words }) => words) : [block.id]));
  return names.filter((name) => !known.includes(name)).map((name) => {
    const near = nearNames(name, known);
    return {
      code: 'lecture-name',
      what: `The entry \`${LECTURE}\` names “${name}”, which is neither the id of a cell nor the heading of a section.`,
      mend: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : 'Write a cell’s id, which for a step is its symbol, or a heading as it stands in the sheet.',
      key: LECTURE,
    };
  });
}

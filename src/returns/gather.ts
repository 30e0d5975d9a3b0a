import { problemSentence, type Problem, type Result } from '../core/problem/index.ts';
import { createJudge } from './judge.ts';
import type { ReturnedSheet } from './types.ts';

/** A file as it was read, or why it could not be. */
export interface ReadFile {
  readonly name: string;
  readonly text: Result<string>;
  readonly isAltered: boolean;
}

/** A file that holds no sheet that could be read. */
export interface RefusedFile {
  readonly name: string;
  readonly reason: string;
}

/** What came back from a class so far. */
export interface Gathered {
  readonly sheets: readonly ReturnedSheet[];
  readonly refused: readonly RefusedFile[];
  /** Files that hold a sheet which another one had brought already. */
  readonly again: number;
}

export const NOTHING_GATHERED: Gathered = { sheets: [], refused: [], again: 0 };

/** More cells than any sheet of a class has; to work such a one out may take seconds. */
const MOST_CELLS = 2000;

interface Gatherer {
  /** Takes one more file in; gives all that came so far. The same sheet counts once, however its files are called. */
  readonly take: (file: ReadFile) => Gathered;
  /** Finds what slips the wrong results of one more sheet come of; undefined when all are explained. */
  readonly explainNext: () => Gathered | undefined;
}

/** What comes in, one after the other. Explaining may wait until everything is in. */
export function createGatherer(): Gatherer {
  const { judge, explain } = createJudge();
  const places = new Map<string, number>();
  let gathered = NOTHING_GATHERED;
  let explained = 0;
  const refuse = (name: string, problem: Problem): void => {
    gathered = { ...gathered, refused: [...gathered.refused, { name, reason: problemSentence(problem) }] };
  };
  const change = (place: number, how: (sheet: ReturnedSheet) => ReturnedSheet): void => {
    gathered = { ...gathered, sheets: gathered.sheets.map((sheet, i) => (i === place ? how(sheet) : sheet)) };
  };
  return {
    take: ({ name, text, isAltered }) => {
      const place = text.ok ? places.get(text.value) : undefined;
      if (!text.ok) refuse(name, text.problem);
      else if (cellsIn(text.value) > MOST_CELLS) refuse(name, tooManyCells());
      else if (place !== undefined) {
        change(place, (sheet) => (sheet.files.includes(name) ? sheet : { ...sheet, files: [...sheet.files, name] }));
        gathered = { ...gathered, again: gathered.again + 1 };
      } else {
        const { sheets } = gathered;
        const sheet = judge({ id: String(sheets.length + 1), files: [name], text: text.value, isAltered });
        if (!sheet.ok) refuse(name, sheet.problem);
        else {
          places.set(text.value, sheets.length);
          gathered = { ...gathered, sheets: [...sheets, sheet.value] };
        }
      }
      return gathered;
    },
    explainNext: () => {
      if (explained >= gathered.sheets.length) return undefined;
      explained += 1;
      change(explained - 1, explain);
      return gathered;
    },
  };
}

function cellsIn(text: string): number {
  return text.match(/^`{3,}[a-z]/gm)?.length ?? 0;
}

function tooManyCells(): Problem {
  return { code: 'returned-too-long', what: `It has more than ${MOST_CELLS} cells, and no sheet of a class has.`, mend: 'Bring it in as a sheet of its own to look at it.' };
}

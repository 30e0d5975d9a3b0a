import { ok } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { applyEdit } from './edit.ts';
import type { EditCommand } from './edit.ts';
import type { SheetDocument } from './types.ts';

/** A document with its earlier and later states. */
export interface SheetHistory {
  readonly document: SheetDocument;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Applies a command and remembers it as one step; edits of the same key one after the other are one step. */
  apply(command: EditCommand): Result<SheetDocument>;
  /** Goes one step back, to the very document that was; false where there is none. */
  undo(): boolean;
  redo(): boolean;
  /** Ends merging: the next edit of the same key is a step of its own (a field was left, a drag ended). */
  settle(): void;
}

/** Steps that are remembered; earlier ones are forgotten. */
const MOST_STEPS = 500;

export function createHistory(document: SheetDocument): SheetHistory {
  let current = document;
  let past: SheetDocument[] = [];
  let future: SheetDocument[] = [];
  let target: string | undefined;
  const step = (from: SheetDocument[], to: SheetDocument[]): boolean => {
    const next = from.pop();
    if (next === undefined) return false;
    to.push(current);
    current = next;
    target = undefined;
    return true;
  };
  return {
    get document() {
      return current;
    },
    get canUndo() {
      return past.length > 0;
    },
    get canRedo() {
      return future.length > 0;
    },
    apply(command) {
      const result = applyEdit(current, command);
      if (!result.ok || result.value === current) return result;
      const nextTarget = targetOf(current, command);
      const begun = past.at(-1);
      if (nextTarget !== undefined && nextTarget === target && begun !== undefined && hasSameText(begun, result.value)) {
        // Taken back by hand: nothing is left of the step.
        past = past.slice(0, -1);
        target = undefined;
        future = [];
        current = begun;
        return ok(current);
      }
      if (nextTarget === undefined || nextTarget !== target) past = [...past, current].slice(-MOST_STEPS);
      target = nextTarget;
      future = [];
      current = result.value;
      return ok(current);
    },
    undo: () => step(past, future),
    redo: () => step(future, past),
    settle() {
      target = undefined;
    },
  };
}

function hasSameText(a: SheetDocument, b: SheetDocument): boolean {
  const isSame = a.frontMatter.source === b.frontMatter.source && a.blocks.length === b.blocks.length;
  return isSame && a.blocks.every((block, i) => block === b.blocks[i] || block.source === b.blocks[i]?.source);
}

/** What a command writes to, by the place of the block (its id may change with what is typed); undefined: never merged. */
function targetOf(document: SheetDocument, command: EditCommand): string | undefined {
  const place = (id: string): number => document.blocks.findIndex((block) => block.id === id);
  switch (command.do) {
    case 'set key':
      return JSON.stringify(['key', place(command.cellId), command.key]);
    case 'set keys':
      return JSON.stringify(['key', place(command.cellId), ...command.values.keys()]);
    case 'set table cell':
      return JSON.stringify(['table cell', place(command.cellId), command.row, command.column]);
    case 'set body':
      return JSON.stringify(['body', place(command.cellId)]);
    case 'set source':
      return JSON.stringify(['source', place(command.blockId)]);
    case 'set front matter':
      return JSON.stringify(['front matter', command.key]);
    case 'together': {
      const targets = command.commands.map((inner) => targetOf(document, inner));
      return targets.length === 0 || targets.includes(undefined) ? undefined : JSON.stringify(targets);
    }
    default:
      return undefined;
  }
}

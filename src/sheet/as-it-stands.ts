import type { EditCommand } from './edit.ts';
import { lineageOf } from './lineage.ts';
import type { SheetDocument } from './types.ts';

/**
 * A command that was given to a document as its reader last saw it, for the document as it stands: a block's id is made from what is typed, and the
 * next key may come before the page shows what the one before it did. It would be refused then, or write to another block that bears the id by now.
 * @param seen the document from whose blocks the command took its ids
 */
export function asItStands(command: EditCommand, seen: SheetDocument, now: SheetDocument): EditCommand {
  if (seen === now) return command;
  const follow = (id: string): string => idNow(id, seen, now);
  if (command.do === 'together') return { ...command, commands: command.commands.map((one) => asItStands(one, seen, now)) };
  if (command.do === 'insert') return command.after === undefined ? command : { ...command, after: follow(command.after) };
  if (command.do === 'move' && typeof command.to === 'object' && command.to.after !== undefined) {
    return { ...command, blockId: follow(command.blockId), to: { after: follow(command.to.after) } };
  }
  if ('cellId' in command) return { ...command, cellId: follow(command.cellId) };
  return 'blockId' in command ? { ...command, blockId: follow(command.blockId) } : command;
}

/** What was not there is new and is meant by the id that it has; what is gone keeps its own, and the command is told so. */
function idNow(id: string, seen: SheetDocument, now: SheetDocument): string {
  const block = seen.blocks.find((one) => one.id === id);
  if (block === undefined) return id;
  const lineage = lineageOf(block);
  return now.blocks.find((one) => lineageOf(one) === lineage)?.id ?? id;
}

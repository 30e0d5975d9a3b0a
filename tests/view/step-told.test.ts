import { describe, expect, it } from 'vitest';
import { createHistory, parseSheet, type EditCommand, type SheetHistory } from '../../src/sheet/index.ts';
import { tellStep, type StepTold } from '../../src/view/step-told.ts';
import { shipped } from '../shipped.ts';

const SHEET = shipped('rotating-bending');

function after(...commands: readonly EditCommand[]): SheetHistory {
  const history = createHistory(parseSheet(SHEET));
  for (const command of commands) {
    const result = history.apply(command);
    if (!result.ok) throw new Error(result.problem.what);
    history.settle();
  }
  return history;
}

function undone(history: SheetHistory): StepTold | undefined {
  const before = history.document;
  history.undo();
  return tellStep('undo', before, history.document);
}

describe('what an undo changed', () => {
  it('is a given with what stands in it again, and where it is', () => {
    const history = after({ do: 'set key', cellId: 'F', key: 'value', value: '325 N' });
    expect(undone(history)).toEqual({ way: 'undo', at: 'F', sentence: 'Undone: “Load, indicated or marked on the weights” is 310 N.' });
    const before = history.document;
    history.redo();
    expect(tellStep('redo', before, history.document)?.sentence).toBe('Done again: “Load, indicated or marked on the weights” is 325 N.');
  });

  it('is a cell that is back, or gone again, or somewhere else', () => {
    expect(undone(after({ do: 'delete', blockId: 'n' }))).toEqual({ way: 'undo', at: 'n', sentence: 'Undone: “Speed” is back.' });
    const added = after({ do: 'insert', after: 'n', source: '```step\nsymbol: omega\nlabel: Angular speed\nformula: 2*pi*n\nunit: 1/s\n```\n' });
    expect(undone(added)).toEqual({ way: 'undo', at: undefined, sentence: 'Undone: “Angular speed” is gone.' });
    expect(undone(after({ do: 'move', blockId: 'c', to: 'up' }))?.sentence).toBe('Undone: the order of the lines is as it was.');
  });

  it('is the head of the sheet, or several places, of which two are named', () => {
    expect(undone(after({ do: 'set front matter', key: 'team', value: 'T9' }))?.sentence).toMatch(/^Undone: the head of the sheet .* is as it was\.$/);
    const all = ['L', 'd', 'F', 'n'].map((cellId) => ({ do: 'set keys', cellId, values: new Map([['readings', undefined], ['value', '']]) }) as const);
    const told = undone(after({ do: 'together', commands: all }));
    expect(told?.sentence).toMatch(/^Undone: “Overall span between the supports” is .*; “Minimum diameter[^”]*” is .*; and 2 more places\.$/);
    const emptied = after({ do: 'set keys', cellId: 'F', values: new Map([['value', '']]) }, { do: 'set key', cellId: 'F', key: 'value', value: '1 N' });
    expect(undone(emptied)?.sentence).toBe('Undone: “Load, indicated or marked on the weights” is empty.');
  });

  it('is nothing where nothing changed', () => {
    const history = after();
    expect(undone(history)).toBeUndefined();
  });
});

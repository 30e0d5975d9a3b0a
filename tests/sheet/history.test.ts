import { describe, expect, it } from 'vitest';
import { createHistory, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';

const TEXT = 'Begin.\n\n```remark\nid: r\nheading: a\n```\n';

describe('steps to undo', () => {
  it('are none where typing was taken back to what stood there before', () => {
    const document = parseSheet(TEXT);
    const history = createHistory(document);
    history.apply({ do: 'insert', after: 'r', source: '```remark\nid: new\nheading: b\n```\n' });
    const added = history.document;
    history.settle();
    for (const body of ['id: new\nheading: bc\n', 'id: new\nheading: bcd\n', 'id: new\nheading: b\n']) history.apply({ do: 'set body', cellId: 'new', body });
    expect(history.document).toBe(added);
    expect(history.undo()).toBe(true);
    expect(history.document).toBe(document);
    expect(history.canUndo).toBe(false);
  });

  it('begin anew after that', () => {
    const history = createHistory(parseSheet(TEXT));
    for (const heading of ['ab', 'a', 'ax', 'axy']) history.apply({ do: 'set key', cellId: 'r', key: 'heading', value: heading });
    history.undo();
    expect(serialiseSheet(history.document)).toBe(TEXT);
    expect(history.canUndo).toBe(false);
  });
});

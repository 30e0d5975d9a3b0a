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

  it('are one for another text of the whole sheet; what is no text changes nothing', () => {
    const document = parseSheet(TEXT);
    const history = createHistory(document);
    history.apply({ do: 'set key', cellId: 'r', key: 'heading', value: 'b' });
    history.apply({ do: 'set document', text: TEXT.replace('Begin.', 'Began.') });
    expect(serialiseSheet(history.document)).toBe(TEXT.replace('Begin.', 'Began.'));
    expect(history.undo()).toBe(true);
    expect(serialiseSheet(history.document)).toBe(TEXT.replace('heading: a', 'heading: b'));
    const present = history.document;
    expect(history.apply({ do: 'set document', text: `${TEXT}\u0000` })).toMatchObject({ ok: false, problem: { code: 'not-text' } });
    expect(history.document).toBe(present);
    expect(history.canRedo).toBe(true);
  });

  it('begin anew after that', () => {
    const history = createHistory(parseSheet(TEXT));
    for (const heading of ['ab', 'a', 'ax', 'axy']) history.apply({ do: 'set key', cellId: 'r', key: 'heading', value: heading });
    history.undo();
    expect(serialiseSheet(history.document)).toBe(TEXT);
    expect(history.canUndo).toBe(false);
  });
});

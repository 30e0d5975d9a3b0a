import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdit, createHistory, KNOWN_KINDS, parseSheet, serialiseSheet, templateCell } from '../../src/sheet/index.ts';
import type { EditCommand } from '../../src/sheet/index.ts';
import { cellOf, changedRows, edited, fieldText, sheetLikeText } from './texts.ts';

const A = '```given\nsymbol: a\n```\n';
const B = '```given\nsymbol: b\n```\n';
const C = '```check\nid: c\ncondition: a > b\nholds: Yes.\notherwise: No.\n```\n';

describe('moving', () => {
  const move = (text: string, blockId: string, to: 'up' | 'down' | { after: string | undefined }) => edited(text, { do: 'move', blockId, to });

  it('changes places with the neighbour, blank lines staying where they are', () => {
    expect(move(`${A}\n${B}\n\n${C}`, 'c', 'up')).toBe(`${A}\n${C}\n\n${B}`);
    expect(move(`${A}\n${B}\n\n${C}`, 'a', 'down')).toBe(`${B}\n${A}\n\n${C}`);
  });

  it('passes prose as one piece', () => {
    expect(move(`${A}\nOne.\n\nTwo.\n\n${B}`, 'b', 'up')).toBe(`${A}\n${B}\nOne.\n\nTwo.\n`);
    expect(move(`# Head\n\n${A}\n${B}`, 'a', 'up')).toBe(`${A}\n# Head\n\n${B}`);
    expect(move(`# Head\n\n${A}\n${B}`, 'prose-1', 'down')).toBe(`${A}\n# Head\n\n${B}`);
  });

  it('goes to a place after a block, or to the start below the front matter', () => {
    expect(move(`${A}\n${B}\n${C}`, 'a', { after: 'c' })).toBe(`${B}\n${C}\n${A}`);
    expect(move(`---\nunits: SI\n---\n${A}\n${B}\n${C}`, 'c', { after: undefined })).toBe(`---\nunits: SI\n---\n${C}\n${A}\n${B}`);
    expect(move(`${A}\n${B}`, 'a', { after: 'a' })).toBe(`${A}\n${B}`);
  });

  it('gives the last block a line end where it goes up without one', () => {
    expect(move(`${A}\n${B.trimEnd()}`, 'b', 'up')).toBe(`${B}\n${A}`);
  });

  it('says that nothing stands above or below', () => {
    const document = parseSheet(`\n${A}`);
    expect(applyEdit(document, { do: 'move', blockId: 'a', to: 'up' })).toMatchObject({ ok: false, problem: { code: 'at-the-edge', what: 'Nothing stands above it.' } });
    expect(applyEdit(document, { do: 'move', blockId: 'a', to: 'down' })).toMatchObject({ ok: false, problem: { what: 'Nothing stands below it.' } });
    expect(applyEdit(document, { do: 'move', blockId: 'x', to: 'down' })).toMatchObject({ ok: false, problem: { code: 'block-gone' } });
    expect(applyEdit(document, { do: 'move', blockId: 'a', to: { after: 'x' } })).toMatchObject({ ok: false, problem: { code: 'block-gone' } });
  });

  it('down and up again is the same text', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([A, B, C, 'Prose.\n', '```remark\nheading: x\n```\n'], { minLength: 2 }), fc.array(fc.constantFrom('\n', '\n\n', ' \n'), { minLength: 5, maxLength: 5 }), fc.nat(), (parts, gaps, n) => {
        const text = parts.map((part, i) => part + gaps[i]).join('');
        const document = parseSheet(text);
        const movable = document.blocks.filter(({ source }) => source.trim() !== '');
        const block = movable[n % (movable.length - 1)];
        const down = applyEdit(document, { do: 'move', blockId: block?.id ?? '', to: 'down' });
        if (!down.ok) throw new Error(down.problem.what);
        const at = down.value.blocks.find(({ source }) => source.trim() === block?.source.trim());
        expect(at?.id).toBe(block?.id);
        const up = applyEdit(down.value, { do: 'move', blockId: at?.id ?? '', to: 'up' });
        expect(up.ok && serialiseSheet(up.value)).toBe(text);
      }),
    );
  });
});

describe('putting in and taking out', () => {
  it('puts a cell in with a blank line on either side', () => {
    const run = (text: string, after: string | undefined) => edited(text, { do: 'insert', after, source: B });
    expect(run(`${A}\n${C}`, 'a')).toBe(`${A}\n${B}\n${C}`);
    expect(run(`${A}${C}`, 'a')).toBe(`${A}\n${B}\n${C}`);
    expect(run(A, 'a')).toBe(`${A}\n${B}`);
    expect(run(A.trimEnd(), 'a')).toBe(`${A}\n${B}`);
    expect(run(A, undefined)).toBe(`${B}\n${A}`);
    expect(run('', undefined)).toBe(B);
    expect(run('Text.\n', 'prose-1')).toBe(`Text.\n\n${B}`);
    expect(run(`---\ntitle: x\n---\n${A}`, undefined)).toBe(`---\ntitle: x\n---\n${B}\n${A}`);
  });

  it('takes on the line ends of the document', () => {
    expect(edited(A.replaceAll('\n', '\r\n'), { do: 'insert', after: 'a', source: B })).toBe(`${A}\n${B}`.replaceAll('\n', '\r\n'));
    expect(edited(A.replaceAll('\n', '\r'), { do: 'insert', after: 'a', source: B })).toBe(`${A}\n${B}`.replaceAll('\n', '\r'));
  });

  it('refuses a text whose fence is open, which would swallow what follows', () => {
    const document = parseSheet(`${A}\n${B}`);
    const source = 'Text\n```given\nsymbol: x\n';
    expect(applyEdit(document, { do: 'insert', after: 'a', source })).toMatchObject({ ok: false, problem: { code: 'fence-open', line: 2 } });
    expect(applyEdit(document, { do: 'set source', blockId: 'a', source })).toMatchObject({ ok: false, problem: { code: 'fence-open', line: 2 } });
  });

  it('deletes a cell with the blank lines on one side', () => {
    expect(edited(`${A}\n${B}\n${C}`, { do: 'delete', blockId: 'b' })).toBe(`${A}\n${C}`);
    expect(edited(`${A}\n${B}`, { do: 'delete', blockId: 'b' })).toBe(A);
    expect(edited(`${A}\n${B}`, { do: 'delete', blockId: 'a' })).toBe(B);
    expect(edited(`One.\n${B}Two.\n`, { do: 'delete', blockId: 'b' })).toBe('One.\n\nTwo.\n');
    expect(edited(`${A}\nText.\n\n${B}`, { do: 'delete', blockId: 'prose-1' })).toBe(`${A}\n${B}`);
  });

  it('duplicates with a symbol and an id of its own', () => {
    const copy = (text: string, blockId: string) => edited(text, { do: 'duplicate', blockId });
    expect(copy(`${A}\n${B}`, 'a')).toBe(`${A}\n\`\`\`given\nsymbol: a_2\n\`\`\`\n\n${B}`);
    expect(copy('```given\nsymbol: s_1\n```\n```given\nsymbol: s_2 # c\n```\n', 's_2')).toContain('symbol: s_3 # c');
    expect(copy('```step\nsymbol: R_A\nformula: 1\n```\n', 'R_A')).toContain('symbol: R_A2');
    expect(copy(C, 'c')).toContain('id: c-2');
    expect(copy('Text.\n', 'prose-1')).toBe('Text.\n\nText.\n');
  });

  it('leaves no problem behind for a duplicated cell', () => {
    const document = parseSheet(edited(`${A}\n${C}`, { do: 'duplicate', blockId: 'a' }, { do: 'duplicate', blockId: 'c' }, { do: 'duplicate', blockId: 'a' }));
    expect(document.blocks.flatMap((block) => (block.kind === 'cell' ? [block.id, ...block.cell.problems] : []))).toEqual(['a', 'a_3', 'a_2', 'c', 'c-2']);
  });

  it('replaces the text of a block, by several or by none', () => {
    expect(edited(`One.\n\n${A}`, { do: 'set source', blockId: 'prose-1', source: 'Two.\n\n' })).toBe(`Two.\n\n${A}`);
    expect(edited(`One.\n${A}`, { do: 'set source', blockId: 'prose-1', source: 'Two.' })).toBe(`Two.\n${A}`);
    expect(edited(`One.\n\n${A}`, { do: 'set source', blockId: 'prose-1', source: `${B}\n` })).toBe(`${B}\n${A}`);
    expect(edited(`One.\n\n${A}`, { do: 'set source', blockId: 'prose-1', source: '' })).toBe(A);
    expect(edited('One.\r\nTwo.\nThree.\r\n', { do: 'set source', blockId: 'prose-1', source: 'One.\nX\nThree.\n' })).toBe('One.\r\nX\r\nThree.\r\n');
  });

  it('sets the text between the fences, byte for byte where it is left as it was', () => {
    const text = '~~~given\r\nsymbol: a\r\nvalue: 1\nunit: mm\r\n~~~';
    const after = edited(text, { do: 'set body', cellId: 'a', body: 'symbol: a\nvalue: 2\nunit: mm\n' });
    expect(after).toBe('~~~given\r\nsymbol: a\r\nvalue: 2\r\nunit: mm\r\n~~~');
    expect(edited(A, { do: 'set body', cellId: 'a', body: 'symbol: z' })).toBe('```given\nsymbol: z\n```\n');
    expect(edited(A, { do: 'set body', cellId: 'a', body: 'x: |\n````\n' })).toBe('`````given\nx: |\n````\n`````\n');
    expect(edited(A, { do: 'set body', cellId: 'a', body: '```step\n' })).toBe('````given\n```step\n````\n');
  });

  it('keeps a body of any text within its cell', () => {
    fc.assert(
      fc.property(fc.oneof(fieldText, sheetLikeText), (body) => {
        const result = applyEdit(parseSheet(`${A}\n${B}`), { do: 'set body', cellId: 'a', body });
        if (!result.ok) throw new Error(result.problem.what);
        expect(result.value.blocks.length).toBe(3);
        const [first, , last] = result.value.blocks;
        expect(last?.source).toBe(B);
        const found = first?.kind === 'cell' ? first.body : '';
        const lf = (text: string) => text.replaceAll(/\r\n|\r/g, '\n');
        expect(found.replace(/\n$/, '')).toBe(lf(body).replace(/\n$/, ''));
      }),
      { numRuns: 200 },
    );
  });
});

describe('templates', () => {
  it('are free of problems and bring a symbol nobody has', () => {
    let document = parseSheet('');
    const findings = ['limits', 'comparison', 'staircase', 'plan'] as const;
    for (const kind of [...KNOWN_KINDS, ...KNOWN_KINDS, ...findings]) {
      const result = applyEdit(document, { do: 'insert', after: undefined, source: templateCell(kind, document) });
      if (!result.ok) throw new Error(result.problem.what);
      document = result.value;
    }
    const cells = document.blocks.flatMap((block) => (block.kind === 'cell' ? [block.cell] : []));
    expect(cells.flatMap(({ problems, unknownKeys }) => [...problems, ...unknownKeys])).toEqual([]);
    expect(cells.map(({ kind }) => kind).toSorted()).toEqual([...KNOWN_KINDS, ...KNOWN_KINDS, ...findings.map(() => 'fit'), 'table', 'end', 'end'].toSorted());
    const symbols = cells.flatMap((cell) => (cell.kind === 'given' || cell.kind === 'step' ? [cell.symbol] : []));
    expect(symbols.toSorted()).toEqual(['x_1', 'x_2', 'x_3', 'x_4']);
  });
});

describe('together and history', () => {
  const text = `---\ntitle: T\n---\n${A}\n${B}\n${C}`;
  const set = (cellId: string, key: string, value: string): EditCommand => ({ do: 'set key', cellId, key, value });

  it('does all commands or none', () => {
    const document = parseSheet(text);
    const both = applyEdit(document, { do: 'together', commands: [set('a', 'value', '1'), set('b', 'value', '2')] });
    expect(both.ok && changedRows(text, serialiseSheet(both.value))).toEqual({ gone: [], added: ['value: 1', 'value: 2'] });
    expect(applyEdit(document, { do: 'together', commands: [set('a', 'value', '1'), set('x', 'value', '2')] })).toMatchObject({ ok: false, problem: { code: 'block-gone' } });
    expect(applyEdit(document, { do: 'together', commands: [] })).toEqual({ ok: true, value: document });
  });

  it('undoes to the very document that was, and redoes', () => {
    const document = parseSheet(text);
    const history = createHistory(document);
    expect([history.canUndo, history.canRedo, history.undo(), history.redo()]).toEqual([false, false, false, false]);
    const result = history.apply(set('a', 'value', '1'));
    expect(result.ok && result.value).toBe(history.document);
    const after = history.document;
    expect(history.undo()).toBe(true);
    expect(history.document).toBe(document);
    expect([history.canUndo, history.canRedo]).toEqual([false, true]);
    expect(history.redo()).toBe(true);
    expect(history.document).toBe(after);
  });

  it('makes one step of consecutive edits of a key, until another target or settling', () => {
    const history = createHistory(parseSheet(text));
    const steps = () => {
      let count = 0;
      while (history.undo()) count++;
      while (history.redo()) continue;
      return count;
    };
    for (const value of ['6', '6.', '6.3', '6.31']) history.apply(set('a', 'value', value));
    expect(steps()).toBe(1);
    history.apply(set('a', 'label', 'x'));
    history.apply(set('a', 'label', 'xy'));
    expect(steps()).toBe(2);
    history.settle();
    history.apply(set('a', 'label', 'xyz'));
    expect(steps()).toBe(3);
    const drag = (v: string): EditCommand => ({ do: 'together', commands: [set('a', 'value', v), set('b', 'value', v)] });
    history.apply(drag('1'));
    history.apply(drag('2'));
    expect(steps()).toBe(4);
    history.apply({ do: 'set front matter', key: 'team', value: 'T' });
    history.apply({ do: 'set front matter', key: 'team', value: 'T4' });
    expect(steps()).toBe(5);
    history.apply({ do: 'duplicate', blockId: 'a' });
    history.apply({ do: 'duplicate', blockId: 'a' });
    expect(steps()).toBe(7);
  });

  it('makes one step of typing a symbol, although the id changes with it', () => {
    const history = createHistory(parseSheet(text));
    history.apply(set('a', 'symbol', 'ab'));
    history.apply(set('ab', 'symbol', 'abc'));
    history.undo();
    expect(serialiseSheet(history.document)).toBe(text);
  });

  it('starts a new step after undo, and forgets what was undone', () => {
    const history = createHistory(parseSheet(text));
    history.apply(set('a', 'value', '1'));
    history.undo();
    history.apply(set('a', 'value', '2'));
    expect([history.canRedo, history.canUndo]).toEqual([false, true]);
    history.undo();
    expect(serialiseSheet(history.document)).toBe(text);
  });

  it('remembers no step for what changes nothing or fails', () => {
    const history = createHistory(parseSheet(text));
    history.apply(set('a', 'symbol', 'a'));
    history.apply(set('x', 'value', '1'));
    expect(history.canUndo).toBe(false);
  });

  it('keeps the last 500 steps', () => {
    const history = createHistory(parseSheet(A));
    for (let i = 0; i < 510; i++) {
      history.apply(set('a', 'value', `${i}`));
      history.settle();
    }
    let steps = 0;
    while (history.undo()) steps++;
    expect(steps).toBe(500);
    expect(cellOf(history.document, 'a').cell).toMatchObject({ value: '9' });
  });

  it('undoes any sequence of commands to the same bytes, and redoes to the same bytes', () => {
    const id = fc.constantFrom('a', 'b', 'c', 'prose-1', 'prose-2', 'remark-1', 'a_2');
    const command: fc.Arbitrary<EditCommand> = fc.oneof(
      fc.record({ do: fc.constant('set key' as const), cellId: id, key: fc.constantFrom('value', 'label', 'symbol', 'zz'), value: fc.option(fieldText, { nil: undefined }) }),
      fc.record({ do: fc.constant('set body' as const), cellId: id, body: fieldText }),
      fc.record({ do: fc.constant('set source' as const), blockId: id, source: sheetLikeText }),
      fc.record({ do: fc.constant('insert' as const), after: fc.option(id, { nil: undefined }), source: sheetLikeText }),
      fc.record({ do: fc.constant('duplicate' as const), blockId: id }),
      fc.record({ do: fc.constant('move' as const), blockId: id, to: fc.oneof(fc.constantFrom('up' as const, 'down' as const), fc.record({ after: id })) }),
      fc.record({ do: fc.constant('delete' as const), blockId: id }),
      fc.record({ do: fc.constant('set front matter' as const), key: fc.constantFrom('title', 'team'), value: fc.option(fieldText, { nil: undefined }) }),
    );
    fc.assert(
      fc.property(fc.array(command, { maxLength: 8 }), (commands) => {
        const history = createHistory(parseSheet(text));
        for (const next of commands) {
          history.apply(next);
          const now = serialiseSheet(history.document);
          expect(parseSheet(now).blocks.map(({ source }) => source)).toEqual(history.document.blocks.map(({ source }) => source));
        }
        const after = serialiseSheet(history.document);
        while (history.undo()) continue;
        expect(serialiseSheet(history.document)).toBe(text);
        while (history.redo()) continue;
        expect(serialiseSheet(history.document)).toBe(after);
      }),
      { numRuns: 200 },
    );
  });
});

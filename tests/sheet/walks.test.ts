import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createHistory, lineageOf, parseSheet, serialiseSheet, templateCell, type Block, type EditCommand, type SheetDocument } from '../../src/sheet/index.ts';
import { SHIPPED, shipped } from '../shipped.ts';

const SHEETS = SHIPPED.map((name) => parseSheet(shipped(name)));
const TEXTS = ['7.5 mm', '', 'x', '"', '7,5', '- a', '# b', 'symbol: W', '```', 'W', '±', '\n', '101, 102 mm', 'a: {b', '=1+1', 'fracture'];
const KEYS_TRIED = ['value', 'readings', 'label', 'symbol', 'formula', 'note', 'text', 'unit', 'id', 'odd'];

interface Step {
  readonly command: EditCommand;
  /** Blocks that the command speaks of. */
  readonly addressed: readonly Block[];
}

interface Draw {
  readonly what: number;
  readonly which: number;
  readonly text: string;
  readonly key: string;
  readonly n: number;
}

/** A command of any kind at a block of the document, made from numbers drawn. */
function stepOf(document: SheetDocument, { what, which, text, key, n }: Draw): Step | undefined {
  const cells = document.blocks.filter(({ kind }) => kind === 'cell');
  const of = (kind: string): Block | undefined => {
    const those = cells.filter((block) => block.kind === 'cell' && block.cell.kind === kind);
    return those[which % Math.max(1, those.length)];
  };
  const block = cells[which % cells.length];
  const table = of('table');
  if (block === undefined) return undefined;
  const cellId = block.id;
  const at = (command: EditCommand, ...addressed: readonly (Block | undefined)[]): Step | undefined =>
    (addressed.includes(undefined) ? undefined : { command, addressed: addressed as readonly Block[] });
  const inTable = (command: (id: string) => EditCommand): Step | undefined => (table === undefined ? undefined : at(command(table.id), table));
  const checklist = of('checklist');
  const choice = of('choice');
  const steps: readonly (() => Step | undefined)[] = [
    () => at({ do: 'set key', cellId, key, value: n % 3 === 0 ? undefined : text }, block),
    () => at({ do: 'set keys', cellId, values: new Map([['value', text], ['readings', undefined]]) }, block),
    () => at({ do: 'set in group', cellId, group: 'correlated', key: 'L', value: text }, block),
    () => at({ do: 'set body', cellId, body: `${text}\n` }, block),
    () => at({ do: 'set source', blockId: cellId, source: text }, block),
    () => at({ do: 'move', blockId: cellId, to: n % 2 === 0 ? 'up' : 'down' }),
    () => at({ do: 'duplicate', blockId: cellId }),
    () => at({ do: 'delete', blockId: cellId }, block),
    () => at({ do: 'insert', after: cellId, source: templateCell(n % 2 === 0 ? 'given' : 'step', document) }),
    () => at({ do: 'tick', cellId: checklist?.id ?? '', item: n % 4, time: '2026-11-20T09:00:00Z' }, checklist),
    () => at({ do: 'choose', cellId: choice?.id ?? '', option: choice?.kind === 'cell' && choice.cell.kind === 'choice' ? (choice.cell.options[n % choice.cell.options.length]?.key ?? '') : '' }, choice),
    () => inTable((id) => ({ do: 'set table cell', cellId: id, row: n % 30, column: 'N', text })),
    () => inTable((id) => ({ do: 'insert rows', cellId: id, at: n % 30, count: 1 + (n % 3) })),
    () => inTable((id) => ({ do: 'delete rows', cellId: id, at: n % 30, count: 1 + (n % 3) })),
    () => inTable((id) => ({ do: 'move rows', cellId: id, at: n % 10, count: 1, to: which % 10 })),
    () => inTable((id) => ({ do: 'paste cells', cellId: id, row: n % 30, column: 'S', text: `${text}\t${text}\n${text}` })),
    () => at({ do: 'set front matter', key: 'team', value: text }),
    () => at({ do: 'hold', state: { name: `T${n % 5}`, inputs: new Map([['d', '7 mm']]), rows: new Map() } }),
    () => at({ do: 'drop held', name: `T${n % 5}` }),
    () => at({ do: 'together', commands: [{ do: 'set key', cellId, key: 'label', value: text }, { do: 'set front matter', key: 'team', value: text }] }, block),
  ];
  return steps[what % steps.length]?.();
}

const sources = (document: SheetDocument, except: ReadonlySet<object>): ReadonlyMap<object, string> =>
  new Map(document.blocks.flatMap((block) => (block.kind !== 'cell' || except.has(lineageOf(block)) ? [] : [[lineageOf(block), block.source] as const])));
/** Prose joins and parts as cells between it come and go: its words stay in order. */
const prose = (document: SheetDocument): string => document.blocks.flatMap((block) => (block.kind === 'prose' ? block.source.split(/\s+/) : [])).filter((word) => word !== '').sort().join(' ');

const draw: fc.Arbitrary<Draw> = fc.record({ what: fc.nat({ max: 999 }), which: fc.nat({ max: 999 }), text: fc.constantFrom(...TEXTS), key: fc.constantFrom(...KEYS_TRIED), n: fc.nat({ max: 99 }) });

/** What a command changed besides what it speaks of. */
function strays({ command, addressed }: Step, before: SheetDocument, after: SheetDocument): readonly string[] {
  const spoken = new Set(addressed.map(lineageOf));
  const now = sources(after, spoken);
  const cells = [...sources(before, spoken)].flatMap(([lineage, source]) => (now.get(lineage) === source ? [] : [source]));
  const writesText = command.do === 'set source' || command.do === 'set body';
  return writesText || prose(after) === prose(before) ? cells : [...cells, 'the text between the cells'];
}

test('over all commands, what is not addressed stays byte for byte, and undo leads back to the first text', () => {
  let made = 0;
  fc.assert(fc.property(fc.nat({ max: 99 }), fc.array(draw, { minLength: 1, maxLength: 6 }), (sheet, draws) => {
    const start = SHEETS[sheet % SHEETS.length] as SheetDocument;
    const history = createHistory(start);
    for (const one of draws) {
      const before = history.document;
      const step = stepOf(before, one);
      if (step === undefined) continue;
      const { ok } = history.apply(step.command);
      if (ok) made += 1;
      expect(ok ? strays(step, before, history.document) : [history.document === before], JSON.stringify(step.command)).toEqual(ok ? [] : [true]);
    }
    while (history.canUndo) history.undo();
    expect(serialiseSheet(history.document)).toBe(serialiseSheet(start));
  }), { numRuns: 500 });
  expect(made).toBeGreaterThan(800);
});

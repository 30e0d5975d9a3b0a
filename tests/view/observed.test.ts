/** What a block reads is noted while it is drawn, and it is drawn again when an answer is another: so no picture is ever out of date. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isHidden, observe, observedContext, presentFigure, wholeOf, type PresentContext } from '../../src/report/index.ts';
import type { Block, Cell, EditCommand } from '../../src/sheet/index.ts';
import { drawBlock } from '../../src/view/cell.ts';
import type { Desk, OpenPart } from '../../src/view/desk.ts';
import { observeDesk, type ObservedDesk } from '../../src/view/observed-desk.ts';
import { benchDesk, type BenchDesk } from '../bench-desk.ts';
import { cases } from '../sizes.ts';
import { shipped } from '../shipped.ts';

/** What a template shows, as text; presses are none. */
function textOf(shown: unknown): string {
  if (Array.isArray(shown)) return shown.map(textOf).join('');
  if (typeof shown === 'string' || typeof shown === 'number' || typeof shown === 'boolean') return String(shown);
  if (typeof shown !== 'object' || shown === null) return '';
  const { strings, values } = shown as { readonly strings?: readonly string[]; readonly values?: readonly unknown[] };
  if (values === undefined) return '';
  return strings === undefined ? values.map(textOf).join('|') : strings.map((part, i) => part + textOf(values[i])).join('');
}

/** A block with its drawing, as it is on the page. */
function pictureOf(block: Block, desk: Desk): string {
  const { state, template } = drawBlock(block, desk);
  const figure = block.kind === 'cell' && block.cell.kind === 'figure' ? presentFigure(block.cell, desk.context()) : undefined;
  const drawn = (figure?.draw ?? figure?.chart)?.({ width: 640, idPrefix: 'x' });
  return `${state}\n${textOf(template)}\n${drawn?.svg ?? ''}${drawn?.sentence ?? ''}`;
}

interface Drawn {
  readonly block: Block;
  readonly asked: ObservedDesk;
  readonly picture: string;
}

function drawn(block: Block, desk: Desk): Drawn {
  const asked = observeDesk(desk);
  return { block, asked, picture: pictureOf(block, asked.desk) };
}

const drawnAll = ({ blocks, desk }: BenchDesk): Map<string, Drawn> => new Map(blocks().map((block) => [block.id, drawn(block, desk)]));

const isOutOfDate = (block: Block, known: Drawn | undefined): boolean => known?.block !== block || !known.asked.isStillTrue();

const ROTATING = shipped('rotating-bending').replace(/^(title: .*)$/mu, '$1\nheld:\n  - name: "thinner"\n    inputs:\n      d: 6.1 mm');
const blockOf = ({ blocks }: BenchDesk, symbol: string): Block => {
  const found = blocks().find((block) => block.kind === 'cell' && 'symbol' in block.cell && block.cell.symbol === symbol);
  if (found === undefined) throw new Error(`no ${symbol}`);
  return found;
};

describe('a block whose own text and values stay', () => {
  test('follows the label of the option that fills it', async () => {
    const sheet = await benchDesk(['```given', 'symbol: S_ut', 'label: Tensile strength', 'unit: MPa', '```', '',
      '```choice', 'id: material', 'label: Material', 'options:', '  - key: a', '    label: One steel', '    sets:', '      S_ut: 600 MPa', 'chosen: a', '```', ''].join('\n'));
    const before = drawn(blockOf(sheet, 'S_ut'), sheet.desk);
    expect(before.picture).toContain('One steel');
    const choice = sheet.blocks().find((block) => block.kind === 'cell' && block.cell.kind === 'choice');
    await sheet.edit({ do: 'set source', blockId: choice?.id ?? '', source: (choice?.source ?? '').replace('One steel', 'Another steel') });
    expect(blockOf(sheet, 'S_ut')).toBe(before.block);
    expect(before.asked.isStillTrue()).toBe(false);
    sheet.dispose();
  });

  test('follows the label of the line that the reader came from', async () => {
    const sheet = await benchDesk(ROTATING);
    const there = blockOf(sheet, 'd');
    sheet.desk.ui(there.id).cameFrom = blockOf(sheet, 'N_f').id;
    const before = drawn(there, sheet.desk);
    await sheet.edit({ do: 'set key', cellId: blockOf(sheet, 'N_f').id, key: 'label', value: 'Life until fracture' });
    expect(before.asked.isStillTrue()).toBe(false);
    expect(drawn(there, sheet.desk).picture).toContain('Life until fracture');
    sheet.dispose();
  });

  test('stands while nothing that it shows has changed: an edit of d leaves what does not hang on it', async () => {
    const sheet = await benchDesk(ROTATING);
    const before = drawnAll(sheet);
    await sheet.edit({ do: 'set keys', cellId: blockOf(sheet, 'd').id, values: new Map([['readings', undefined], ['value', '6.1 mm']]) });
    const again = sheet.blocks().filter((block) => isOutOfDate(block, before.get(block.id)));
    const changed = again.filter((block) => drawn(block, sheet.desk).picture !== before.get(block.id)?.picture);
expect(changed.length).toBeGreaterThan(20);
    expect(again.length).toBeLessThan(1.5 * changed.length);
    sheet.dispose();
  });
});

test('a question that fails has no answer that could stay the same', () => {
  const observation = observe(() => 1);
  expect(() => observation.ask(() => {
    throw new Error('no');
  }, undefined)).toThrow('no');
  expect(observation.isStillTrue()).toBe(false);
});

test('a context put together of an observed one is refused, since its notes would be lost', async () => {
  const sheet = await benchDesk(ROTATING);
  const context = observedContext(observe(() => wholeOf(sheet.desk.context())));
  const made: PresentContext = { ...context, system: 'US customary' };
  expect(() => isHidden('d', made)).toThrow('would not be noted');
  sheet.dispose();
});

const SHEETS = [ROTATING, shipped('alternating-bending'), shipped('sn-line'), shipped('span-errors')];
const PARTS: readonly OpenPart[] = ['derivation', 'budget', 'measured', 'models', 'own option', 'work back'];
const VALUES: Readonly<Record<string, readonly string[]>> = {
  given: ['value: 7.9', 'trial: 8.1', 'value: ', 'label: Another name', 'note: "{=d} and {=N_f}"', 'resolution: 0.2 mm', 'possible: any'],
  step: ['label: Another name', 'answer: 12 MPa', 'answer: 1', 'asked: true', 'note: "{=sigma_a}"', 'formula: 2*d'],
};
const HEAD = [['units', 'US customary'], ['units', 'SI'], ['own_working', 'true'], ['own_working', 'false'], ['slips', 'I.radius'], ['slips', 'd.radius, I.radius'], ['slips', undefined],
  ['held_reference', 'thinner'], ['held_reference', undefined], ['specimen', '12']] as const;

interface Change {
  readonly what: 'key' | 'key' | 'label' | 'choose' | 'tick' | 'head' | 'delete' | 'duplicate' | 'up' | 'rows';
  readonly which: number;
  readonly how: number;
}

const CHANGE: fc.Arbitrary<Change> = fc.record({
  what: fc.constantFrom('key', 'key', 'key', 'label', 'choose', 'tick', 'head', 'head', 'delete', 'duplicate', 'up', 'rows'), which: fc.nat(), how: fc.nat(),
});

const nth = <T>(list: readonly T[], place: number): T | undefined => list[place % Math.max(1, list.length)];

function commandOf({ what, which, how }: Change, blocks: readonly Block[]): EditCommand | undefined {
  const cells = (...kinds: readonly Cell['kind'][]): readonly Cell[] => blocks.flatMap((block) => (block.kind === 'cell' && kinds.includes(block.cell.kind) ? [block.cell] : []));
  const any = nth(blocks, which);
  const key = (cell: Cell | undefined, text: string | undefined): EditCommand | undefined => {
    const [, name = '', value = ''] = /^(\w+): (.*)$/.exec(text ?? '') ?? [];
    return cell === undefined ? undefined : { do: 'set key', cellId: cell.id, key: name, value: value === '' ? undefined : value };
  };
  switch (what) {
    case 'key': {
      const cell = nth(cells('given', 'step'), which);
      return key(cell, nth(VALUES[cell?.kind ?? ''] ?? [], how));
    }
    case 'label': return key(nth(cells('choice', 'figure', 'check', 'table', 'fit'), which), `label: Name ${how % 7}`);
    case 'choose': {
      const cell = nth(cells('choice'), which);
      return cell?.kind === 'choice' ? { do: 'choose', cellId: cell.id, option: nth(cell.options, how)?.key ?? '' } : undefined;
    }
    case 'tick': {
      const cell = nth(cells('checklist'), which);
      return cell === undefined ? undefined : { do: 'tick', cellId: cell.id, item: 0, time: how % 2 === 0 ? undefined : '2026-11-20T09:12:00+00:00' };
    }
    case 'head': {
      const [name, value] = nth(HEAD, how) ?? HEAD[0];
      return { do: 'set front matter', key: name, value };
    }
    case 'rows': {
      const cell = nth(cells('table'), which);
      return cell === undefined ? undefined : { do: 'delete rows', cellId: cell.id, at: how % 5, count: 1 };
    }
    case 'delete': return any === undefined ? undefined : { do: 'delete', blockId: any.id };
    case 'duplicate': return any === undefined ? undefined : { do: 'duplicate', blockId: any.id };
    case 'up': return any === undefined ? undefined : { do: 'move', blockId: any.id, to: 'up' };
  }
}

test('whatever is edited, a block that is not drawn again looks as if it were', async () => {
  const opened = fc.array(fc.record({ which: fc.nat(), part: fc.constantFrom(...PARTS) }), { maxLength: 6 });
  await fc.assert(fc.asyncProperty(fc.constantFrom(...SHEETS), opened, fc.array(CHANGE, { minLength: 1, maxLength: 5 }), async (text, open, changes) => {
    const sheet = await benchDesk(text);
    for (const { which, part } of open) sheet.desk.ui(nth(sheet.blocks(), which)?.id ?? '').open.add(part);
    const page = drawnAll(sheet);
    for (const change of changes) {
      const command = commandOf(change, sheet.blocks());
      if (command !== undefined) await sheet.edit(command);
      for (const block of sheet.blocks()) if (isOutOfDate(block, page.get(block.id))) page.set(block.id, drawn(block, sheet.desk));
      expect(sheet.blocks().filter((block) => page.get(block.id)?.picture !== pictureOf(block, sheet.desk)).map(({ id }) => id)).toEqual([]);
    }
    sheet.dispose();
  }), { numRuns: cases(12) });
}, 120_000);

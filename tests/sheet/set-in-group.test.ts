/** One entry of a group in a cell's body: set, changed, taken out, and nothing else touched. */
import { describe, expect, it } from 'vitest';
import { applyEdit, parseSheet } from '../../src/sheet/index.ts';
import { edited } from './texts.ts';

const given = (body: string) => `\`\`\`given\n${body}\`\`\`\n`;

function set(body: string, key: string, value: string | undefined): string {
  return edited(given(body), { do: 'set in group', cellId: 'd', group: 'correlated', key, value });
}

describe('set in group', () => {
  it.each([
    ['makes the group', 'symbol: d\nunit: mm\n', 'F', '0.5', 'symbol: d\nunit: mm\ncorrelated:\n  F: 0.5\n'],
    ['fills an empty group', 'symbol: d\ncorrelated: # none yet\nunit: mm\n', 'F', '0.5', 'symbol: d\ncorrelated: # none yet\n  F: 0.5\nunit: mm\n'],
    ['changes an entry', 'symbol: d\ncorrelated:\n  F: 0.5 # why\n  L: 1\nunit: mm\n', 'F', '-0.25', 'symbol: d\ncorrelated:\n  F: -0.25 # why\n  L: 1\nunit: mm\n'],
    ['adds an entry', 'symbol: d\ncorrelated:\n  F: 0.5\nunit: mm\n', 'L', '1', 'symbol: d\ncorrelated:\n  F: 0.5\n  L: 1\nunit: mm\n'],
    ['adds to a group in one line', 'symbol: d\ncorrelated: {F: 0.5}\nunit: mm\n', 'L', '1', 'symbol: d\ncorrelated: {F: 0.5, L: 1}\nunit: mm\n'],
    ['takes an entry out', 'symbol: d\ncorrelated:\n  F: 0.5\n  L: 1 # stays\nunit: mm\n', 'F', undefined, 'symbol: d\ncorrelated:\n  L: 1 # stays\nunit: mm\n'],
    ['takes the group out with its last entry', 'symbol: d\ncorrelated:\n  F: 0.5\nunit: mm\n', 'F', undefined, 'symbol: d\nunit: mm\n'],
    ['takes nothing out of nothing', 'symbol: d\nunit: mm\n', 'F', undefined, 'symbol: d\nunit: mm\n'],
  ])('%s', (_what, before, key, value, after) => {
    expect(set(before, key, value)).toBe(given(after));
  });

  it('keeps what can’t be changed safely', () => {
    const document = parseSheet(given('{symbol: d, unit: mm}\n'));
    const result = applyEdit(document, { do: 'set in group', cellId: 'd', group: 'correlated', key: 'F', value: '1' });
    expect(result.ok ? undefined : result.problem).toMatchObject({ code: 'edit-unsafe', key: 'correlated', cell: 'd' });
  });

  it('reads as it was written, whatever was typed', () => {
    for (const typed of ['0,5', '# 1', 'yes: no', "'", '- 1']) {
      const document = parseSheet(set('symbol: d\nunit: mm\n', 'F', typed));
      const [block] = document.blocks;
      expect(block?.kind === 'cell' && block.cell.kind === 'given' ? block.cell.correlated?.get('F') : undefined).toBe(typed);
    }
  });
});

describe('set entries', () => {
  const fit = (body: string) => `\`\`\`fit\n${body}\`\`\`\n`;
  const setSnapshot = (body: string, entries: Readonly<Record<string, string>>): string =>
    edited(fit(body), { do: 'set entries', cellId: 'line', key: 'snapshot', entries: new Map(Object.entries(entries)) });

  it.each<[string, string, Readonly<Record<string, string>>, string]>([
    ['makes the group in its place', 'id: line\nnote: Hers.\n', { A: '30', B: '-10' }, 'id: line\nsnapshot:\n  A: 30\n  B: -10\nnote: Hers.\n'],
    ['puts another in its place, entries that it lacks taken out', 'id: line\nsnapshot:\n  A: 1\n  C: 3\nnote: Hers.\n', { B: '2', A: '1' }, 'id: line\nsnapshot:\n  B: 2\n  A: 1\nnote: Hers.\n'],
    ['takes it out', 'id: line\nsnapshot:\n  A: 1\n  C: 3\nnote: Hers.\n', {}, 'id: line\nnote: Hers.\n'],
    ['writes what needs quotation marks', 'id: line\n', { from: 'Bars: 1 # 2', data: '0012' }, 'id: line\nsnapshot:\n  from: "Bars: 1 # 2"\n  data: 0012\n'],
  ])('%s', (_what, before, entries, after) => {
    expect(setSnapshot(before, entries)).toBe(fit(after));
  });
});

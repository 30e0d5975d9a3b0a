/** Items of a list of groups, as a form edits them: one text, one more, one less; the rest stays byte for byte. */
import { describe, expect, it } from 'vitest';
import { applyEdit, parseSheet, serialiseSheet, type EditCommand } from '../../src/sheet/index.ts';

const TABLE = ['```table', 'id: t', 'columns:', '  - key: S  # stress', '    label: Stress', '  - key: N', 'rows: |', '  S,N', '  1,2', '```', ''].join('\n');
const edited = (...commands: readonly EditCommand[]): string => {
  const after = applyEdit(parseSheet(TABLE), { do: 'together', commands });
  return after.ok ? serialiseSheet(after.value) : after.problem.code;
};

describe('an item of a list', () => {
  it('gets another text, a new one, or loses one', () => {
    const set = (key: string, value: string | undefined): string => edited({ do: 'set in item', cellId: 't', list: 'columns', item: 0, key, value });
    expect(set('label', 'Stress amplitude')).toBe(TABLE.replace('label: Stress', 'label: Stress amplitude'));
    expect(set('unit', 'MPa')).toBe(TABLE.replace('label: Stress\n', 'label: Stress\n    unit: MPa\n'));
    expect(set('label', undefined)).toBe(TABLE.replace('    label: Stress\n', ''));
  });

  it('comes to the end of the list, before the rows, and goes', () => {
    const more = edited({ do: 'add item', cellId: 't', list: 'columns', entries: new Map([['key', 'team']]) });
    expect(more).toBe(TABLE.replace('  - key: N\n', '  - key: N\n  - key: team\n'));
    expect(edited({ do: 'add item', cellId: 't', list: 'columns', entries: new Map([['key', 'team']]) }, { do: 'remove item', cellId: 't', list: 'columns', item: 2 })).toBe(TABLE);
  });

  it('is refused where there is none', () => {
    expect(edited({ do: 'set in item', cellId: 't', list: 'columns', item: 7, key: 'label', value: 'x' })).toBe('edit-unsafe');
    expect(edited({ do: 'set in item', cellId: 'gone', list: 'columns', item: 0, key: 'label', value: 'x' })).toBe('block-gone');
  });
});

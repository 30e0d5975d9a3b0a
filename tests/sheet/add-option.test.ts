import { describe, expect, it } from 'vitest';
import { applyEdit, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';

const HEAD = '```choice\nid: material\nlabel: Material\nchosen: a\noptions:\n  - key: a\n    label: steel A\n    sets:\n      S_ut: 630 MPa\n';
const TEXTS = [
  ['followed by other keys', `${HEAD}note: Typical.\n\`\`\`\nProse.\n`],
  ['at the end of the cell', `${HEAD}\`\`\`\n`],
  ['written without indentation', '```choice\nid: material\nchosen: a\noptions:\n- key: a\n  sets:\n    S_ut: 1 MPa\nnote: x # kept\n```\n'],
  ['with Windows line ends', `${HEAD}note: Typical.\n\`\`\`\n`.replaceAll('\n', '\r\n')],
] as const;

const option = { key: 'own', label: "bar 7: “hard”, 40 # HB", sets: new Map([['S_ut', '712 ± 5 MPa'], ['S_e0', 'min(0.5*S_ut, 700*unit(MPa))']]), source: 'Ours: the certificate' };

describe('an option added to a choice', () => {
  it.each(TEXTS)('%s: reads back as given, and every byte of before is kept', (_name, text) => {
    const result = applyEdit(parseSheet(text), { do: 'add option', cellId: 'material', option });
    if (!result.ok) throw new Error(result.problem.what);
    const block = result.value.blocks.find(({ id }) => id === 'material');
    if (block?.kind !== 'cell' || block.cell.kind !== 'choice') throw new Error('no choice');
    expect(block.cell.problems).toEqual([]);
    expect(block.cell.options.length).toBe(2);
    expect(block.cell.options[1]).toMatchObject({ ...option });
    const after = serialiseSheet(result.value);
    let at = 0;
    for (const line of text.split('\n')) {
      expect(after.indexOf(line, at), line).toBeGreaterThanOrEqual(at);
      at = after.indexOf(line, at) + line.length;
    }
  });

  it('is refused with words where the options stand in one line or are not there', () => {
    for (const text of ['```choice\nid: material\nchosen: a\noptions: [{key: a}]\n```\n', '```choice\nid: material\nchosen: a\n```\n']) {
      const result = applyEdit(parseSheet(text), { do: 'add option', cellId: 'material', option });
      expect(result.ok ? '' : result.problem.code).toBe('edit-unsafe');
    }
  });
});

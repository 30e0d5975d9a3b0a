/** Which blocks a part on demand holds, and what is said where it has no end. */
import { describe, expect, test } from 'vitest';
import { asidesIn, parseSheet } from '../../src/sheet/index.ts';
import { presentAside, presentAttention } from '../../src/report/index.ts';
import { renderSheet } from '../../src/report/render.ts';
import { cellOf, contextOf, fenced, given, step } from '../report/sheet-at.ts';

const aside = (id: string, ...more: readonly string[]): string => fenced('aside', `id: ${id}`, `label: About ${id}`, ...(more.length > 0 ? more : ['holds: Nothing of note.']));
const END = fenced('end');

function heldBy(text: string): Readonly<Record<string, readonly string[]>> {
  const { holds } = asidesIn(parseSheet(text));
  return Object.fromEntries([...holds].map(([id, blocks]) => [id, blocks.filter(({ kind }) => kind === 'cell').map((block) => block.id)]));
}

async function problemsOf(text: string): Promise<readonly string[]> {
  const { states, document } = await contextOf(text);
  return document.blocks.flatMap(({ id }) => (states.cell(id)?.problems ?? []).map(({ code }) => `${id} ${code}`));
}

describe('a part on demand', () => {
  test('holds what follows up to its end, and a heading of three signs too', async () => {
    const text = ['## One\n', aside('p'), given('a', '1', '1'), '### Inside\n', given('b', '2', '1'), END, given('c', '3', '1')].join('\n');
    expect(heldBy(text)).toEqual({ p: ['a', 'b'] });
    expect(await problemsOf(text)).toEqual([]);
  });

  test('without an end it stops at the next part or section, and that is told', async () => {
    const text = [aside('p'), given('a', '1', '1'), aside('q'), given('b', '2', '1'), '\n```text of another\n## no heading\n```\n', given('c', '3', '1'), '\n## Two\n', given('d', '4', '1')].join('\n');
    expect(heldBy(text)).toEqual({ p: ['a'], q: ['b', 'c'] });
    expect(await problemsOf(text)).toEqual(['p aside-open', 'q aside-open']);
  });

  test('an end of nothing is told', async () => {
    expect(await problemsOf([aside('p'), END, fenced('end', 'id: lone')].join('\n'))).toEqual(['lone end-alone']);
  });

  test('computes as ever, tells the outcome in its line, and what in it does not hold', async () => {
    const text = [
      aside('p', 'holds: "Twice the length, {=y}."'), given('x', '2 mm', 'mm'), step('y', '2*x', 'mm'),
      fenced('check', 'id: k', 'label: Short enough?', 'condition: y < 3*unit(mm)', 'holds: yes', 'otherwise: no'), step('z', 'nothing', 'mm'), END,
    ].join('\n');
    const context = await contextOf(text);
    const { holds, trouble } = presentAside(cellOf(context, 'aside', 'p'), context);
    expect(holds).toBe('Twice the length, 4\u00a0mm.');
    expect(trouble).toEqual([{ cellId: 'k', label: 'Short enough?', kind: 'check' }, { cellId: 'z', label: 'z', kind: 'problem' }]);
    // The same as the head of the sheet lists.
    expect(presentAttention(context).failedChecks.map(({ cellId }) => cellId)).toEqual(['k']);
  });

  test('stands open in a report, where its end is not seen', async () => {
    const report = renderSheet(await contextOf([aside('p'), given('x', '2 mm', 'mm'), END].join('\n')));
    expect(report).toContain('<h3 class="aside-heading">About p</h3>');
    expect(report).toContain('id="cell-x"');
    expect(report).not.toContain('cell-end');
  });
});

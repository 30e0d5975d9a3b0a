/** What a sheet hands on: results with their uncertainty and how they vary together, nothing that was typed and nothing that a slip moves. */
import { describe, expect, test } from 'vitest';
import { readFrozen } from '../../src/graph/record/frozen.ts';
import { valuesOfSheet } from '../../src/graph/values-of-sheet.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { given, step } from '../report/sheet-at.ts';
import { shipped } from '../shipped.ts';

const sheet = `${given('a', '3 ± 0.3', '1')}\n${given('b', '4 ± 0.4', '1')}\n${step('p', 'a + b', '1')}\n${step('m', 'a - b', '1')}\n${step('open', 'a/(b - b)', '1')}`;

describe('values of another sheet', () => {
  test('carry value, uncertainty and correlation', async () => {
    const { values } = await valuesOfSheet(parseSheet(sheet), ['p', 'm']);
    const [p, m] = values;
    const read = readFrozen('p', p?.text ?? '');
    expect(read).toMatchObject({ ok: true, value: { value: 7, standardUncertainty: expect.closeTo(0.5, 12) } });
    expect(readFrozen('m', m?.text ?? '')).toMatchObject({ ok: true, value: { value: -1, standardUncertainty: expect.closeTo(0.5, 12) } });
    // JCGM 100:2008, H.9: r = (u_a² − u_b²)/(u_p u_m) = (0.09 − 0.16)/0.25.
    expect(p?.correlated.get('m')).toBeCloseTo(-0.28, 12);
    expect(m?.correlated.get('p')).toBeCloseTo(-0.28, 12);
  });

  test('are no typed ones, and say why there is none', async () => {
    const { values, trouble } = await valuesOfSheet(parseSheet(sheet), ['a', 'open', 'nothing']);
    expect(values).toEqual([]);
    expect([...trouble]).toEqual([['open', 'It has no value there at the moment.']]);
  });

  test('a slip that is switched on keeps what it moves from being taken', async () => {
    const text = shipped('specimen');
    const { values, trouble } = await valuesOfSheet(parseSheet(text), ['K_t', 'q']);
    // Four figures of the uncertainty, the value to the same place.
    expect(values.map(({ symbol, text: said }) => [symbol, said])).toEqual([['K_t', '1.74301 ± 0.01049'], ['q', '0.761236 ± 0.001818']]);
    expect(trouble.size).toBe(0);
    const slipped = await valuesOfSheet(parseSheet(text.replace(/^title:.*$/m, '$&\nslips: r.diameter')), ['K_t', 'q']);
    expect(slipped.values).toEqual([]);
    expect(slipped.trouble.get('K_t')).toContain('A slip is switched on');
  });
});

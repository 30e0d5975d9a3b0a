/** What a sheet hands on: what it works out and what was typed there, with uncertainty and how they vary together, nothing that a slip moves. */
import { describe, expect, test } from 'vitest';
import { readFrozen } from '../../src/graph/record/frozen.ts';
import { valueFor, valuesOfSheet } from '../../src/graph/values-of-sheet.ts';
import { cellsOf, parseSheet } from '../../src/sheet/index.ts';
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

  test('are typed ones as well, and say why there is none', async () => {
    const { values, trouble } = await valuesOfSheet(parseSheet(sheet), ['a', 'open', 'nothing']);
    expect(values.map(({ symbol, text }) => [symbol, text])).toEqual([['a', '3 ± 0.3']]);
    expect([...trouble]).toEqual([['open', 'It has no value there at the moment.']]);
  });

  test('are invented where anything that they rest on is, however far back', async () => {
    const invented = (text: string): string => text.replace('unit:', 'origin: example\nunit:');
    const mixed = [invented(given('a', '3', '1')), given('b', '4', '1'), step('p', '2*a', '1'), step('q', 'p + b', '1'), step('own', '2*b', '1')].join('\n');
    const { values } = await valuesOfSheet(parseSheet(mixed), ['a', 'b', 'q', 'own']);
    expect(values.filter(({ isInvented }) => isInvented).map(({ symbol }) => symbol).sort()).toEqual(['a', 'q']);
  });

  test('are nothing that is empty, assumed or came from a third sheet there; what was typed over that is', async () => {
    const taken = (value: string): string => `\`\`\`given\nsymbol: t\nvalue: "${value}"\nunit: "1"\ntaken:\n  from: X\n  symbol: t\n  value: "5"\n\`\`\`\n`;
    const of = async (text: string) => (await valuesOfSheet(parseSheet(text), ['a', 't'])).values.map(({ text: said }) => said);
    expect(await of(given('a', '', '1'))).toEqual([]);
    expect(await of(given('a', '3', '1').replace('unit:', 'origin: assumed\nunit:'))).toEqual([]);
    expect(await of(taken('5'))).toEqual([]);
    expect(await of(taken('6'))).toEqual(['6']);
    expect((await valuesOfSheet(parseSheet(given('a', '3', '1').replace('unit:', 'trial: "4"\nunit:')), ['a'])).trouble.get('a')).toContain('trial');
  });

  test('go where the symbol, the dimension and the kind of sheet are those meant', async () => {
    const offer = await valuesOfSheet(parseSheet(`${given('a', '3 ± 0.3 mm', 'mm')}\n${given('b', '4', '1')}`), ['a', 'b']);
    const taker = (elsewhere: string, unit: string) => cellsOf(parseSheet(given('x', '', unit).replace('unit:', `elsewhere: ${elsewhere}\nunit:`)), 'given')[0];
    const fits = (elsewhere: string, unit: string): string | undefined => {
      const cell = taker(elsewhere, unit);
      return cell === undefined ? 'no such given' : valueFor(cell, offer)?.text;
    };
    expect(fits('a', 'm')).toBe('3 ± 0.3 mm');
    expect(fits('a', 'N')).toBeUndefined();
    expect(fits('a beside b', 'mm')).toBe('3 ± 0.3 mm');
    expect(fits('a beside c', 'mm')).toBeUndefined();
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

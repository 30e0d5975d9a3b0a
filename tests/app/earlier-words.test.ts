import { expect, test } from 'vitest';
import { whatDiffers } from '../../src/app/earlier-words.ts';
import { parseSheet } from '../../src/sheet/index.ts';

const given = (symbol: string, value: string): string => `\`\`\`given\nsymbol: ${symbol}\nvalue: ${value}\n\`\`\`\n\n`;
const sheet = (title: string, ...lines: readonly string[]): string => `---\ntitle: ${title}\n---\n${lines.join('')}`;
const words = (then: string, now: string): string => whatDiffers(parseSheet(then), parseSheet(now));
const NOW = sheet('Now', given('F', '310 N'), given('d', '7.52 mm'), 'Words.\n\n');

test.each([
  ['a value', sheet('Now', given('F', '325 N'), given('d', '7.52 mm'), 'Words.\n\n'), 'F was 325 N'],
  ['title, an empty blank and one that was not there', sheet('Then', given('F', '')), 'titled “Then”; F was empty; d was not there'],
  ['a blank that is gone', `${NOW}${given('L', '400 mm')}`, 'L was 400 mm'],
  ['more values than are named', sheet('Now', ...['A', 'B', 'C', 'D'].map((symbol) => given(symbol, '1'))), 'A was 1; B was 1; C was 1; 3 more values'],
  ['an entry too long to be named', NOW.replace('310 N', '3'.repeat(60)), `F was ${'3'.repeat(40)}…`],
  ['words alone', NOW.replace('Words.', 'Other words.'), 'the same values; one place differs'],
  ['the order of lines', sheet('Now', given('d', '7.52 mm'), given('F', '310 N'), 'Words.\n\n'), 'the same lines, placed otherwise'],
  ['nothing', NOW, 'the same as now'],
])('%s', (_, then, told) => {
  expect(words(then, NOW)).toBe(told);
});

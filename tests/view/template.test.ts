/** Text of a document between the tags of a template turns nothing beside it; what a field or an attribute holds is what it was given. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { html } from '../../src/view/template.ts';
import { turnedWords } from '../directions.ts';

const TURNING = 'ж\u202eю';
const ISOLATED = `\u2068${TURNING}\u2069`;

it('isolates text between tags, in lists too, and nothing in attributes', () => {
  const one = html`<p title=${TURNING} .value=${TURNING} class="a > ${TURNING}">${TURNING}, 12 mm ${[TURNING, html`<b>${TURNING}</b>`]}</p>`;
  expect(one.values.slice(0, 5)).toEqual([TURNING, TURNING, TURNING, ISOLATED, [ISOLATED, expect.objectContaining({ values: [ISOLATED] })]]);
  expect(html`${'plain'} ${12} ${undefined}`.values).toEqual(['plain', 12, undefined]);
});

it('isolates what a sentence quotes', () => {
  const [sentence] = html`<p>${`There is “${TURNING}” and more.`}</p>`.values;
  expect(turnedWords(String(sentence))).toEqual([]);
});

it('is the only door to lit-html’s templates', () => {
  const files = ['src/view', 'src/app'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts')).map((name) => join(folder, name)));
  expect(files.length).toBeGreaterThan(100);
  expect(files.filter((file) => /import \{[^}]*\bhtml\b[^}]*\} from 'lit-html'/.test(readFileSync(file, 'utf8')))).toEqual([join('src/view', 'template.ts')]);
});

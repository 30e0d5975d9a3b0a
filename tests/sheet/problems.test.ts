import { describe, expect, it } from 'vitest';
import { problemSentence } from '../../src/core/problem/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { cellOf } from './texts.ts';

/** The cell stands below one line of prose, so that its body begins on line 3. */
function told(body: string, kind = 'given'): readonly string[] {
  const block = parseSheet(`Prose.\n\`\`\`${kind}\n${body}\n\`\`\`\n`).blocks[1];
  if (block?.kind !== 'cell') throw new Error('no cell');
  return block.cell.problems.map((problem) => `${problem.code} ${problem.key ?? '-'} ${problem.line}: ${problemSentence(problem)}`);
}

const NO_KEY =
  'this line has no `key: value`. Write a key, a colon, a blank and the value, such as `unit: mm`; indent the line if it continues the one above.';
const COLUMN =
  'this line begins at another column than the lines it belongs with. Begin all keys of a cell, and all items of a list, at the same column.';
const MARKER =
  'a line that begins with ---, ... or % has no place here. Delete the line, or indent it if it belongs to a text.';
const ITSELF = 'Write the value itself; put it in quotation marks if it begins with *, & or !.';

/** Each body is a sound `symbol: d` with one slip; the sentence tells the line of the file. */
const WRITING: readonly (readonly [string, string, string])[] = [
  ['a line that is no entry', 'symbol: d\nmm', `no-key-value - 4: Line 4: ${NO_KEY}`],
  ['the same above another entry', 'mm\nsymbol: d', `no-key-value - 3: Line 3: ${NO_KEY}`],
  ['an item where keys are expected', '- a\nsymbol: d', `no-key-value - 3: Line 3: ${NO_KEY}`],
  ['a colon without a key', ': x\nsymbol: d', `no-key-value - 3: Line 3: ${NO_KEY}`],
  ['no blank after the colon', 'symbol: d\nunit:mm', 'blank-missing unit 4: Line 4: there is no blank after the colon. Write `unit: mm`.'],
  ['a key twice', 'symbol: d\nunit: mm\nunit: in', 'key-twice unit 5: Line 5: the key `unit` stands twice here. Delete one of the two lines; the first one counts.'],
  ['a quotation mark left open', 'symbol: d\nlabel: "Left', 'quote-open label 4: Line 4: the quotation mark " that opens here is never closed. Put a closing " at the end of the value.'],
  ['a single one left open', "symbol: d\nlabel: 'Left", "quote-open label 4: Line 4: the quotation mark ' that opens here is never closed. Put a closing ' at the end of the value."],
  ['text after a quotation', 'symbol: d\nlabel: "Left" one', 'text-after-quote label 4: Line 4: there is text after the closing quotation mark. Close the quotation marks at the end of the value.'],
  ['a bracket left open', 'symbol: d\nlabel: [1, 2', 'bracket-open label 4: Line 4: the bracket [ that opens here is never closed. Put a closing ] at its end, or put the whole value in quotation marks if it is text.'],
  ['text after a bracket', 'symbol: d\nvalue: [1, 2] mm', 'text-after-bracket value 4: Line 4: a value that begins with [ is read as a list or a group, and this one can\'t be. Put the whole value in quotation marks: `value: "[1, 2] mm"`.'],
  ['a comparison without quotes', 'symbol: d\npossible: > 0', 'sign-needs-quotes possible 4: Line 4: a value that begins with > needs quotation marks. Put the whole value in quotation marks: `possible: "> 0"`.'],
  ['the same with two signs', 'symbol: d\npossible: >= 0', 'sign-needs-quotes possible 4: Line 4: a value that begins with > needs quotation marks. Put the whole value in quotation marks: `possible: ">= 0"`.'],
  ['a reserved sign', 'symbol: d\nlabel: @left', 'sign-needs-quotes label 4: Line 4: a value can\'t begin with @ unless it stands in quotation marks. Put the whole value in quotation marks: `label: "@left"`.'],
  ['a percent sign', 'symbol: d\nlabel: % of S', 'sign-needs-quotes label 4: Line 4: a value can\'t begin with % unless it stands in quotation marks. Put the whole value in quotation marks: `label: "% of S"`.'],
  ['a second colon', 'symbol: d\nlabel: Left: "a"', 'second-colon label 4: Line 4: there is a second colon with a blank after it. Put the whole value in quotation marks: `label: \'Left: "a"\'`.'],
  ['a list on the line of its key', 'symbol: d\nlabel: - a', 'list-on-line label 4: Line 4: a list begins on the line below its key. Begin a new line for each item, such as `  - first item`; put the value in quotation marks if it is text.'],
  ['a tab', 'symbol: d\n\tunit: mm', 'tab unit 4: Line 4: this line is indented with a tab. Indent it with blanks.'],
  ['an entry indented further', 'symbol: d\n  unit: mm', `indentation symbol 4: Line 4: ${COLUMN}`],
  ['an entry indented less', '  symbol: d\nunit: mm', `indentation - 4: Line 4: ${COLUMN}`],
  ['an escape nobody knows', 'symbol: d\nlabel: "\\q"', 'escape-unknown label 4: Line 4: `\\q` means nothing inside double quotation marks. Write two backslashes for one, or use single quotation marks.'],
  ['an alias', 'symbol: d\nlabel: *x', `alias label 4: Line 4: \`*x\` stands for a value written elsewhere, which a sheet does not use. ${ITSELF}`],
  ['an anchor', 'symbol: d\nlabel: &x Left', `anchor label 4: Line 4: \`&x\` gives the value a name, which a sheet does not use. ${ITSELF}`],
  ['a tag', 'symbol: d\nlabel: !!int 5', `tag label 4: Line 4: \`!!int\` says how to read the value, which a sheet does not use. ${ITSELF}`],
  ['a document marker', 'symbol: d\n---', `marker-line - 4: Line 4: ${MARKER}`],
  ['an end marker', 'symbol: d\n...', `marker-line - 4: Line 4: ${MARKER}`],
  ['a directive', '%YAML 1.1\nsymbol: d', `marker-line - 3: Line 3: ${MARKER}`],
  ['a list as a key', 'symbol: d\n[a]: b', 'key-not-text - 4: Line 4: a list or group stands here where a key is expected. Begin the line with a key that is a plain word.'],
];

describe('slips of writing, in the words of the sheet', () => {
  it.each(WRITING)('%s', (_name, body, sentence) => {
    expect(told(body)).toEqual([sentence]);
  });

  it('tells every broken line and reads all others', () => {
    const body = 'symbol: d\nmm\nlabel: "Left\nvalue: 6 mm\nunit:mm\nnote: a: b\ninstrument: steel rule, 0.5 mm';
    expect(told(body).map((line) => line.split(':')[0])).toEqual(['no-key-value - 4', 'quote-open label 5', 'blank-missing unit 7', 'second-colon note 8']);
    const { cell } = cellOf(parseSheet(`\`\`\`given\n${body}\n\`\`\`\n`), 'd');
    expect(cell).toMatchObject({ kind: 'given', symbol: 'd', value: '6 mm', instrument: 'steel rule, 0.5 mm' });
    expect(cell.label).toBe('"Left');
    expect(cell.note).toBe('a: b');
  });

  it('takes signs within a text for what they are', () => {
    const body = 'symbol: d\nlabel: Careful !\nnote: this & that *\n" !":\nunit: mm\ninstrument: "a: *b"';
    expect(told(body)).toEqual([]);
  });

  it('shows a value that can\'t be read as it was typed', () => {
    const { cell } = cellOf(parseSheet('```given\nsymbol: d\npossible: > 0 # always\nvalue: [1, 2] mm\n```\n'), 'd');
    expect(cell).toMatchObject({ possible: '> 0 # always', value: '[1, 2] mm' });
  });

  it('tells slips inside lists with their own line', () => {
    const body = 'chosen: a\noptions:\n  - key: a\n    label Steel\n    note: x\n';
    expect(told(body, 'choice')).toContain(`no-key-value - 6: Line 6: ${NO_KEY}`);
    expect(told('items:\n  - a\n - b', 'checklist')[0]).toBe(`indentation items 5: Line 5: ${COLUMN}`);
    expect(told('items:\n  - a\n  - [b, c', 'checklist')[0]).toMatch(/^bracket-open items 5: /);
  });

  it('counts LF, CRLF and lone CR as one line end each', () => {
    for (const end of ['\n', '\r\n', '\r']) {
      const text = ['Prose.', '', '```given', 'symbol: d', 'mm', '```', ''].join(end);
      expect(cellOf(parseSheet(text), 'd').cell.problems).toMatchObject([{ code: 'no-key-value', line: 5 }]);
    }
  });
});

/** Slips of what the keys hold. */
const KEYS_AND_SHAPES: readonly (readonly [string, string, string, readonly string[]])[] = [
  ['a given without a symbol', 'given', 'unit: mm', ['key-missing symbol 2: This given has no `symbol` yet. Add a line such as `symbol: d_1`.']],
  ['a symbol without a value', 'given', 'unit: mm\nsymbol:', ['key-missing symbol 4: This given has no `symbol` yet. Add a line such as `symbol: d_1`.']],
  ['an empty cell', 'given', '', ['key-missing symbol 2: This given has no `symbol` yet. Add a line such as `symbol: d_1`.']],
  ['a malformed symbol', 'given', 'symbol: 2x', ['symbol-malformed symbol 3: "2x" can\'t be a symbol. Use letters and digits, a letter first, and subscripts behind an underscore, as in R_A or sigma_a.']],
  ['a symbol that means something else', 'given', 'symbol: pi', ['symbol-malformed symbol 3: "pi" has a meaning of its own in formulas. Choose another symbol, for example pi_1.']],
  ['a list where text is expected', 'given', 'symbol: d\nreadings: [1, 2]', ['wrong-shape readings 4: `readings` takes text, not a list. Write it on one line, such as `readings: 101.2, 101.4 mm`.']],
  ['text where a group is expected', 'given', 'symbol: d\ncorrelated: F', ['wrong-shape correlated 4: `correlated` takes a group of keys, not text. Below `correlated:`, write lines such as `F: 0.5`, indented by two blanks.']],
  ['a list inside a group', 'given', 'symbol: d\ncorrelated:\n  F: 0.5\n  G: [1]', ['wrong-shape correlated 6: `G` takes text, not a list. Write its value on one line.']],
  ['an id with blanks', 'given', 'symbol: d\nid: a b', ["id-malformed id 4: `a b` can't be the id of a cell. Use letters, digits, hyphens, points and underscores only."]],
  ['a step without a formula', 'step', 'symbol: R', ['key-missing formula 2: This step has no `formula` yet. Add a line such as `formula: F_1 + F_2`, or `by: ` with the id of the choice that sets the formula.']],
  ['a step that a choice sets', 'step', 'symbol: R\nby: spans', []],
  ['asked with another word', 'step', 'symbol: R\nformula: 1\nasked: yes', ['not-true-or-false asked 5: `asked` is either true or false, not `yes`. Write `asked: true` or `asked: false`, or delete the line.']],
  ['spread with another word', 'step', 'symbol: R\nformula: 1\nspread: wide', ['spread-unknown spread 5: `spread` takes the word factor only, not `wide`. Write `spread: factor`, or delete the line.']],
  ['one symbol for the clock', 'step', 'symbol: R\nformula: 1\nclock: t', ['clock-malformed clock 5: `clock` takes two symbols, the earliest and the latest duration, not `t`. Write them with a comma between, such as `clock: t_lo, t_hi`.']],
  ['a check with nothing in it', 'check', '# later', [
    'key-missing condition 2: This check has no `condition` yet. Add a line such as `condition: sigma_a <= S_y`.',
    'key-missing holds 2: This check has no `holds` yet. Add a line such as `holds: The stress stays below yield.`.',
    'key-missing otherwise 2: This check has no `otherwise` yet. Add a line such as `otherwise: Lower the load.`.',
  ]],
  ['a figure without a drawing', 'figure', 'label: x', ['key-missing drawing 2: This figure has no `drawing` yet. Add a line such as `drawing: free-body`.']],
  ['a remark without a heading', 'remark', 'text: x', ['key-missing heading 2: This remark has no `heading` yet. Add a line such as `heading: Aim`.']],
  ['a checklist without items', 'checklist', 'label: x', ['key-missing items 2: This checklist has no `items` yet. Add lines such as `- Guard closed`, each indented below `items:`.']],
  ['a checklist with one text', 'checklist', 'items: x', ['wrong-shape items 3: `items` takes a list, not text. Below `items:`, begin each item on a line of its own with a hyphen and a blank.']],
  ['an item that is a list, and one without text', 'checklist', 'items:\n  - [a]\n  - done: x', [
    'wrong-shape items 3: Item 1 is a list of its own. Write one text for each item.',
    'key-missing items 5: This item has no `text` yet. Add a line such as `text: Guard closed`.',
  ]],
  ['a choice with nothing chosen', 'choice', 'options:\n  - key: a', []],
  ['options of all sorts', 'choice', 'chosen: a\noptions:\n  - key: a\n  - label: x\n  - text\n  - key: a', [
    'wrong-shape options 4: Option 3 is no group of keys. Begin it with `- key: ` and a short name; write its other keys below.',
    'key-missing options 6: This option has no `key` yet. Add a line such as `key: measured`.',
    'option-twice options 8: Two options have the key `a`. Give one of them another key; the first one counts.',
  ]],
  ['a kind misspelt', 'givn', 'symbol: d', ['kind-unknown - 2: `givn` is not a kind of cell that this version understands. Write `given` if that is meant; it is kept as it is.']],
  ['a kind nobody knows', 'python', 'print("x")', ['kind-unknown - 2: `python` is not a kind of cell that this version understands. It is kept as it is.']],
];

describe('slips of what the keys hold', () => {
  it.each(KEYS_AND_SHAPES)('%s', (_name, kind, body, sentences) => {
    expect(told(body, kind)).toEqual(sentences);
  });
});

describe('the text as a whole', () => {
  const wholes: readonly (readonly [string, string, string])[] = [
    ['a cell never closed', 'Prose.\n\n```given\nsymbol: d\n', 'fence-open 3: Line 3: the cell that begins here is never closed. Below its last line, put a line that holds only the signs with which it begins.'],
    ['a plain fence never closed', '~~~\ntext\n', 'fence-open 1: Line 1: the fenced text that begins here is never closed. Below its last line, put a line that holds only the signs with which it begins.'],
    ['front matter never closed', '---\ntitle: x\n\nProse.\n', 'front-matter-open 1: Line 1: the front matter that begins here is never closed. Put a line of three hyphens below its last entry.'],
    ['a file of bytes', 'PNG\0\u0001', 'document-not-text undefined: This file holds bytes that no text has; it is probably not a worksheet. Open a worksheet, a text file whose name ends in .md.'],
    ['a file far too long', 'x'.repeat(16_000_001), 'document-too-long undefined: This document has more than 16 million characters, which is too long for a worksheet. Split it into several documents.'],
  ];
  it.each(wholes)('%s', (_name, text, sentence) => {
    const document = parseSheet(text);
    expect(document.problems.map((problem) => `${problem.code} ${problem.line}: ${problemSentence(problem)}`)).toEqual([sentence]);
    expect(document.blocks.map(({ kind, source }) => [kind, source])).toEqual([['prose', text]]);
  });

  it('tells what front matter does not take', () => {
    const { frontMatter } = parseSheet('---\ntitle: Bars\nunits: imperial\nteam: [a, b]\nown_working: yes\nbroken\n---\n');
    expect(frontMatter.problems.map((problem) => `${problem.code} ${problem.line}: ${problemSentence(problem)}`)).toEqual([
      `no-key-value 6: Line 6: ${NO_KEY}`,
      'word-unknown 3: `units` is SI or US customary, not `imperial`. Write `units: SI` or `units: US customary`.',
      'entry-not-understood 4: `team` holds a list or a group, which is not understood here. Write its value as text on one line; it is kept as it is.',
      'word-unknown 5: `own_working` is true or false, not `yes`. Write `own_working: true` or `own_working: false`.',
    ]);
    expect([...frontMatter.entries]).toEqual([['title', 'Bars'], ['units', 'imperial'], ['own_working', 'yes']]);
  });
});

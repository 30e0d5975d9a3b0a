/** What leaves for a team, and what stays with the instructor. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { applyEdit, areNumbersChanged, cellsOf, forTeam, handedOut, isTeamFile, parseSheet, serialiseSheet, variantText, type EditCommand, type SheetDocument } from '../../../src/sheet/index.ts';
import { opened, sealed } from '../../../src/sheet/teams/sealed.ts';
import { commentsGone } from '../../../src/sheet/teams/handed-out.ts';
import { createGatherer } from '../../../src/returns/index.ts';
import { presentOrigins } from '../../../src/report/present/origins.ts';
import { readBody } from '../../../src/sheet/yaml-body.ts';
import { SHIPPED, neutral } from '../../shipped.ts';
import { cases } from '../../sizes.ts';

const SHEET = `---
title: A beam # the answer is 7
class_seed: secret-seed
own_working: true
handed_in: 2026-11-20T10:00:00+01:00
slips: I.radius
held:
  - name: solution
    inputs:
      a: 12.345 mm
held_reference: solution
---
# Heading stays

\`\`\`given
# ask for 77 mm
symbol: a
unit: mm   # in millimetres
value: "12 # mm"
trial: 66 mm
varies: 10 mm .. 20 mm step 1 mm
note: |
  # stands in the text
  and stays
\`\`\`
\`\`\`step
symbol: c
formula: 2*a
unit: mm
answer: 55 mm
tried: 44 mm
told: true
wanted: 30 mm .. 40 mm
\`\`\`
\`\`\`check
id: k
condition: a > 1*unit(mm)
holds: yes
otherwise: no
wanted: true
\`\`\`
\`\`\`checklist
id: l
items:
  - text: look
    done: 2026-11-20T09:00:00+01:00
\`\`\`
`;

function out(): string {
  const made = handedOut(parseSheet(SHEET));
  return made.ok ? serialiseSheet(made.value) : made.problem.what;
}

describe('a sheet that is handed out', () => {
  it('holds nothing of ranges, conditions, seed, comments, answers, trials, held states, slips and ticks', () => {
    const text = out();
    for (const secret of ['the answer', 'ask for', 'in millimetres', 'secret-seed', 'varies', 'wanted', 'answer', '55', '66', '44', 'told', 'handed_in', '12.345', 'held', 'I.radius', 'done', 'trial']) expect(text).not.toContain(secret);
    for (const kept of ['# Heading stays', '# stands in the text', 'title: A beam\n', 'own_working: true', '12 # mm', 'unit: mm\n', 'formula: 2*a', 'text: look']) expect(text).toContain(kept);
  });

  it('has the team’s names and numbers, marked as set', () => {
    const made = handedOut(parseSheet(SHEET));
    const file = made.ok ? forTeam(made.value, { team: 'T4: solar "boat"', names: 'Ωμέγα, 試験', variant: '4F1C-22A0-9B1C', entries: [{ symbol: 'a', text: '14 mm' }] }) : made;
    if (!file.ok) throw new Error(file.problem.what);
    const read = parseSheet(serialiseSheet(file.value));
    expect([...read.frontMatter.entries]).toEqual([['title', 'A beam'], ['own_working', 'true'], ['team', 'T4: solar "boat"'], ['operators', 'Ωμέγα, 試験'], ['variant', '4F1C-22A0-9B1C']]);
    expect(cellsOf(read, 'given').map(({ value, origin }) => [value, origin])).toEqual([['14 mm', 'set']]);
    expect([read.problems, read.frontMatter.problems]).toEqual([[], []]);
  });

  // The book has something of everything that is taken out.
  test.each(SHIPPED.filter((name) => name !== 'writing-a-sheet'))('is the sheet that ships, but for that: %s', (name) => {
    const text = neutral(name);
    const made = handedOut(parseSheet(text));
    expect(made.ok && serialiseSheet(made.value)).toBe(text.replace(/^(?:varies|wanted): .*\n/gm, ''));
  });
});

test.each([
  ['a: 1 # x\nb: 2\n', 'a: 1\nb: 2\n'], ['# x\na: 1\n', 'a: 1\n'], ['a: "# x"\n', 'a: "# x"\n'], ['a: |\n  # x\n  y # z\n# w\nb: 2\n', 'a: |\n  # x\n  y # z\nb: 2\n'], ['a:\n  # x\n  - 1 # y\r\n  - 2\r\n', 'a:\n  - 1\r\n  - 2\r\n'],
  ['a: b#c\n', 'a: b#c\n'], ['a: { b: 1 } # c', 'a: { b: 1 }'], ['a: | # x\n  b\n', 'a: |\n  b\n'], ['', ''],
])('comments go and nothing else: %j', (body, left) => expect(commentsGone(body)).toBe(left));

/** Lines of a body: keys, texts over several lines, lists, comments between and behind. */
const LINE = fc.oneof(
  fc.constantFrom('a: 1', 'b: "x # y"', "c: 'it # s'", 'd: x#y', 'e: |\n  # in the text\n  more # of it', 'f:\n  - one # c\n  - "#two"', 'g:\n  h: 1 # c\n  # c\n  i: 2', 'j: { k: 1, l: "#" } # c', 'm: >-\n  folded # text\n\n  # more', 'n: # c', 'o: |2\n   # deep'),
  fc.string({ maxLength: 12 }).map((words) => `# ${words.replace(/[\r\n\u0085\u2028\u2029]/g, ' ')}`),
  fc.constant(''),
);

test('whatever a body holds, it reads the same without its comments', () => {
  fc.assert(fc.property(fc.uniqueArray(LINE, { maxLength: 8 }), fc.constantFrom('\n', '\r\n'), (lines, end) => {
    const body = `${lines.join('\n')}\n`.replaceAll('\n', end);
    const [before, after] = [body, commentsGone(body)].map((one) => readBody(one).entries.map(({ key, node }) => [key, node === undefined ? undefined : node.toJSON() as unknown]));
    expect(after).toEqual(before);
    expect(commentsGone(commentsGone(body))).toBe(commentsGone(body));
  }), { numRuns: cases(2000) });
});

const CHANGED = 'Numbers that were set for this team have been changed.';

describe('numbers that were set for a team', () => {
  const entries = [{ symbol: 'a', text: '14 mm' }];
  const made = handedOut(parseSheet(SHEET));
  const file = made.ok ? forTeam(made.value, { team: 'T1', names: '', variant: variantText(0x4f1c22a0, entries), entries }) : made;
  if (!file.ok) throw new Error(file.problem.what);
  const then = (command: EditCommand): SheetDocument => {
    const edited = applyEdit(file.value, command);
    if (!edited.ok) throw new Error(edited.problem.what);
    return edited.value;
  };

  it('are known to be those as long as nobody changes one, or what names them', () => {
    expect([isTeamFile(file.value), areNumbersChanged(file.value), presentOrigins(file.value).warning]).toEqual([true, false, '']);
    const other = then({ do: 'set key', cellId: 'a', key: 'value', value: '15 mm' });
    expect([areNumbersChanged(other), presentOrigins(other).warning]).toEqual([true, CHANGED]);
    // Typed in again it is the reader's own; an undo brings the mark back with the number.
    expect(areNumbersChanged(then({ do: 'set keys', cellId: 'a', values: new Map([['value', '15 mm'], ['origin', 'set']]) }))).toBe(true);
    expect(areNumbersChanged(then({ do: 'set front matter', key: 'variant', value: '4F1C-22A0-0000' }))).toBe(true);
    expect([isTeamFile(then({ do: 'set front matter', key: 'variant', value: 'B' })), areNumbersChanged(then({ do: 'set front matter', key: 'variant', value: 'B' }))]).toEqual([false, false]);
  });

  it('are told of in what comes back', () => {
    const back = (document: SheetDocument) => createGatherer().take({ name: 'a.md', text: { ok: true, value: serialiseSheet(document) }, isAltered: false }).sheets[0];
    expect(back(file.value)?.troubles).not.toContain(CHANGED);
    // What was set was not measured by the team; what was typed over it is theirs.
    expect(back(file.value)?.values).toEqual([]);
    const other = back(then({ do: 'set key', cellId: 'a', key: 'value', value: '15 mm' }));
    expect(other?.troubles).toContain(CHANGED);
    expect(other?.values.map(({ symbol, typed }) => [symbol, typed])).toEqual([['a', '15 mm']]);
  });
});

describe('what is right of a question', () => {
  const QUESTIONS = '```question\nid: q\nlabel: Where?\noptions:\n  middle: at the waist\n  end: at the grip\nright: middle\nwhy: |\n  The moment is largest there, \u{1d70e} = {=a}.\n  Two lines.\n```\n```question\nid: e\nlabel: Which formula?\nformula: a*sqrt(a^2)\nanswer: a\n```\n';

  function fileFor(team: string): SheetDocument {
    const made = handedOut(parseSheet(SHEET + QUESTIONS));
    const entries = [{ symbol: 'a', text: '14 mm' }];
    const file = made.ok ? forTeam(made.value, { team, names: '', variant: variantText(team.length, entries), entries }) : made;
    if (!file.ok) throw new Error(file.problem.what);
    return parseSheet(serialiseSheet(file.value));
  }

  it('stands in no team’s file in the clear, and is read all the same', () => {
    const document = fileFor('T1');
    const text = serialiseSheet(document);
    for (const secret of ['right: middle', 'a*sqrt', 'largest', 'answer']) expect(text).not.toContain(secret);
    expect(text).toContain('middle: at the waist');
    const [asked, formula] = cellsOf(document, 'question');
    const [before, formulaBefore] = cellsOf(parseSheet(QUESTIONS), 'question');
    expect([asked?.right, asked?.why, formula?.formula]).toEqual([before?.right, before?.why, formulaBefore?.formula]);
    expect(cellsOf(document, 'question').flatMap(({ problems }) => problems)).toEqual([]);
  });

  it('looks another way in another team’s file', () => {
    const lines = (team: string): readonly string[] => serialiseSheet(fileFor(team)).split('\n').filter((line) => line.includes('sealed '));
    expect(lines('T1')).toHaveLength(3);
    expect(lines('T1').filter((line) => lines('Team 2').includes(line))).toEqual([]);
  });

  it('is opened again whatever it was, and no other text is taken for a sealed one', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', minLength: 1 }), fc.integer(), (text, salt) => {
      expect(opened(sealed(text, salt))).toBe(text);
      expect(text.length < 4 || !sealed(text, salt).includes(text)).toBe(true);
    }), { numRuns: cases(2000) });
    const long = 'x'.repeat(300_000);
    expect(opened(sealed(long, 1)) === long).toBe(true);
    for (const text of ['', 'sealed', 'sealed 12345678 ', 'sealed 12345678 12', 'sealed 1234567G 0000', undefined]) expect(opened(text)).toBe(text);
  });
});

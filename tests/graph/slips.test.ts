import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/numeric/index.ts';
import {
  createSheetGraph, sampleSheet, linesOfSheet, rightStates, slipsOn, sweepCurves, tableCsv, workBack, type SheetStates,
} from '../../src/graph/index.ts';
import { applyEdit, createHistory, parseSheet, serialiseSheet, switchAllSlipsOff, switchSlip, type SheetDocument } from '../../src/sheet/index.ts';

const SHEET = `---
title: A round bar # the bar
units: SI
---
\`\`\`given
symbol: M
value: 10 ± 0.1 N·m
unit: N·m
\`\`\`

\`\`\`given
symbol: d
value: 8 ± 0.1 mm
unit: mm
slips:
  radius:
    label: the radius written down
    formula: d/2
  grip:
    label: the grip measured
    formula: D
\`\`\`

\`\`\`given
symbol: D
value: 16 mm
unit: mm
\`\`\`

\`\`\`step
symbol: sigma_a
formula: 32*M/(pi*d^3)
unit: MPa
slips:
  radius:
    label: the radius put in
    formula: 32*M/(pi*(d/2)^3)
  area:
    label: a stress by the area
    formula: M/d^3*1e-3
\`\`\`

\`\`\`step
symbol: e
formula: sigma_a/unit(GPa)/200
unit: "1"
\`\`\`

\`\`\`step
symbol: aside
formula: 2*M
unit: N·m
\`\`\`
`;

async function settled(text: string): Promise<{ readonly document: SheetDocument; readonly states: SheetStates; readonly graph: ReturnType<typeof createSheetGraph> }> {
  const document = parseSheet(text);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return { document, states, graph };
}

const on = (...slips: readonly string[]): string => SHEET.replace('units: SI\n', `units: SI\nslips: ${slips.join(', ')}\n`);
const number = (states: Pick<SheetStates, 'symbol'>, symbol: string): number => {
  const state = states.symbol(symbol);
  return state?.status === 'value' ? state.estimate.value : Number.NaN;
};

describe('a slip switched on', () => {
  it('stands in place of the formula, and everything that follows from it goes along', async () => {
    const [right, wrong] = [(await settled(SHEET)).states, (await settled(on('sigma_a.radius'))).states];
    expect(number(wrong, 'sigma_a') / number(right, 'sigma_a')).toBeCloseTo(8, 12);
    expect(number(wrong, 'e') / number(right, 'e')).toBeCloseTo(8, 12);
    expect(number(wrong, 'aside')).toBe(number(right, 'aside'));
  });

  it('changes what goes on from a given and leaves what was read', async () => {
    const { states, document } = await settled(on('d.radius'));
    expect(number(states, 'd')).toBeCloseTo(0.004, 15);
    expect(states.symbols).not.toContain('d as read');
    expect(number(rightStates(document, states), 'd')).toBeCloseTo(0.008, 15);
    // In place of another symbol: the grip's diameter, sure as it stands there.
    const grip = (await settled(on('d.grip'))).states;
    expect(number(grip, 'sigma_a') / number(rightStates(document, states), 'sigma_a')).toBeCloseTo(1 / 8, 12);
  });

  it('is told where it would give another kind of quantity, also while it is off, and is then not used', async () => {
    const off = (await settled(SHEET)).states.cell('sigma_a');
    expect(off?.problems).toEqual([]);
    const sound = on('sigma_a.area').replace('M/d^3*1e-3', 'M/d^2');
    const { states } = await settled(sound);
    expect(states.cell('sigma_a')?.problems.map(({ code }) => code)).toEqual(['unit-clash']);
    expect(states.symbol('e')).toMatchObject({ status: 'problem', origin: 'sigma_a' });
    const waiting = (await settled(SHEET.replace('M/d^3*1e-3', 'M/d^2'))).states.cell('sigma_a');
    expect(waiting?.problems).toEqual([]);
    expect(waiting?.warnings).toMatchObject([{ code: 'slip-dimension', key: 'slips' }]);
    expect((await settled(SHEET.replace('formula: D\n', 'formula: D_2\n'))).states.cell('d')?.warnings).toMatchObject([{ code: 'unknown-name', key: 'slips' }]);
    expect((await settled(on('d.grip').replace('formula: D\n', 'formula: M\n'))).states.symbol('d')).toMatchObject({ status: 'problem' });
  });

  it('that reads what hangs on it closes a loop, which is told', async () => {
    const { states } = await settled(on('d.grip').replace('formula: D\n', 'formula: d*e\n'));
    expect(states.cell('d')?.problems.map(({ code }) => code)).toContain('loop');
  });

  it('has draws follow: on the values as read, and on them the slip', async () => {
    const { document, graph, states } = await settled(on('d.radius'));
    const samples = sampleSheet(graph.compiled(), states, createRandom(3), 4000);
    const right = sampleSheet(createSheetGraph(parseSheet(SHEET)).compiled(), rightStates(document, states), createRandom(3), 4000);
    const [a, b] = [samples.get('sigma_a'), right.get('sigma_a')];
    if (typeof a !== 'object' || typeof b !== 'object') throw new Error('no draws');
    for (let i = 0; i < a.length; i += 100) expect((a[i] ?? 0) / (b[i] ?? 1)).toBeCloseTo(8, 9);
  });

  it('has a sweep and the way back speak of what is read, with the slip acting on it', async () => {
    const { document, states } = await settled(on('d.radius'));
    const block = document.blocks.find(({ id }) => id === 'd');
    if (block?.kind !== 'cell' || block.cell.kind !== 'given') throw new Error('no d');
    const { curves, present } = sweepCurves(document, states, { of: ['sigma_a'], against: block.cell, places: [0.006, 0.008, 0.010] });
    expect(present).toBeCloseTo(0.008, 15);
    // σ = 32 M/(π (d/2)³) at d = 6 mm, by hand: 32·10/(π·27e-9) Pa.
    expect(curves[0]?.values[0]).toBeCloseTo(320 / (Math.PI * 27e-9), -3);
    const found = workBack(document, states, { result: 'sigma_a', wanted: 320 / (Math.PI * 27e-9), input: block.cell, from: 0.002, to: 0.02 });
    expect(found.answers.map(({ value }) => value)).toEqual([expect.closeTo(0.006, 9)]);
  });
});

describe('the list of slips', () => {
  it('tells what it can’t switch on, and keeps it', async () => {
    const text = on('sigma_a.radus', 'sigma_a.radius', 'sigma_a.area', 'nothing');
    const { document } = await settled(text);
    const { on: inForce, problems } = slipsOn(document);
    expect(inForce.map(({ id }) => id)).toEqual(['sigma_a.radius']);
    expect(problems.map(({ code }) => code)).toEqual(['slip-unknown', 'slip-second', 'slip-unknown']);
    expect(problems[0]?.mend).toContain('Did you mean sigma_a.radius');
    expect(serialiseSheet(document)).toBe(text);
  });

  it('is switched by an edit that undo takes back byte for byte', () => {
    const history = createHistory(parseSheet(SHEET));
    const apply = (command: Parameters<typeof history.apply>[0]): void => {
      history.apply(command);
      history.settle();
    };
    const listed = (): string | undefined => history.document.frontMatter.entries.get('slips');
    apply(switchSlip(history.document, 'd.radius', true));
    apply(switchSlip(history.document, 'sigma_a.radius', true));
    expect(listed()).toBe('d.radius, sigma_a.radius');
    // One way at a time to be wrong: the other slip of the same symbol gives way.
    apply(switchSlip(history.document, 'd.grip', true));
    expect(listed()).toBe('sigma_a.radius, d.grip');
    apply(switchSlip(history.document, 'sigma_a.radius', false));
    expect(listed()).toBe('d.grip');
    apply(switchAllSlipsOff());
    expect(serialiseSheet(history.document)).toBe(SHEET);
    history.undo();
    expect(listed()).toBe('d.grip');
    while (history.canUndo) history.undo();
    expect(serialiseSheet(history.document)).toBe(SHEET);
    while (history.canRedo) history.redo();
    expect(serialiseSheet(history.document)).toBe(SHEET);
  });

  it('comes and goes with documents of other line ends and without a front matter', () => {
    for (const text of [SHEET.replaceAll('\n', '\r\n'), SHEET.slice(SHEET.indexOf('```'))]) {
      const document = parseSheet(text);
      const switched = applyEdit(document, switchSlip(document, 'd.radius', true));
      if (!switched.ok) throw new Error(switched.problem.what);
      expect(slipsOn(parseSheet(serialiseSheet(switched.value))).on.map(({ id }) => id)).toEqual(['d.radius']);
      const off = applyEdit(switched.value, switchAllSlipsOff());
      expect(off.ok && serialiseSheet(off.value).endsWith(text.slice(text.indexOf('```')))).toBe(true);
    }
  });

  it('says in the cell what of it can’t be read', () => {
    const problemsOf = (text: string) => {
      const block = parseSheet(text).blocks[0];
      return block?.kind === 'cell' ? block.cell.problems.map(({ code }) => code) : [];
    };
    const cell = (lines: string): string => `\`\`\`step\nsymbol: a\nformula: "1"\nslips:\n${lines}\`\`\`\n`;
    expect(problemsOf(cell('  two words:\n    formula: "2"\n'))).toEqual(['slip-name']);
    expect(problemsOf(cell('  a.b:\n    formula: "2"\n'))).toEqual(['slip-name']);
    expect(problemsOf(cell('  half:\n    label: half of it\n'))).toEqual(['key-missing']);
    expect(problemsOf(cell('  half: "0.5"\n'))).toEqual(['wrong-shape']);
  });
});

describe('what other sheets and files take', () => {
  const table = `\`\`\`table
id: tests
columns:
  - key: S
    label: Stress
    type: quantity
    unit: MPa
  - key: S_K
    label: Stress with the notch
    type: derived
    unit: MPa
    formula: K*S
  - key: N
    label: Cycles
    type: count
  - key: outcome
    label: Outcome
    type: option
    options: fracture, runout
where: K*S > 500*unit(MPa)
rows: |
  S, N, outcome
  400, 30000, fracture
  350, 90000, fracture
  300, 310000, fracture
  200, 900000, fracture
\`\`\`

\`\`\`given
symbol: K
value: "2"
unit: "1"
slips:
  forgotten:
    label: forgotten
    formula: K + 1
\`\`\`

\`\`\`fit
id: line
table: tests
symbols:
  A: A
  B: B
\`\`\`
`;
  it('no line that a slip has moved', async () => {
    const [right] = await linesOfSheet(parseSheet(table), 'class', '2026-11-20');
    expect(right?.snapshot?.get('A')).toMatch(/\d/);
    const [wrong] = await linesOfSheet(parseSheet(`---\nslips: K.forgotten\n---\n${table}`), 'class', '2026-11-20');
    expect(wrong?.snapshot).toBeUndefined();
    expect(wrong?.trouble).toMatch(/slip is switched on/);
  });

  it('rows that say so each', async () => {
    const { states } = await settled(table);
    const state = states.cell('tests')?.table;
    if (state === undefined) throw new Error('no table');
    const lines = tableCsv(state, ',', { head: 'slips', text: 'K.forgotten' }).split('\r\n');
    expect(lines[0]).toMatch(/^slips,S/);
    expect(lines.slice(1, 4).every((line) => line.startsWith('K.forgotten,'))).toBe(true);
  });
});

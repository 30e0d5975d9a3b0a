/** A line as text from sheet to sheet: exact, readable, and never taken on trust. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { storedLine, type LineFit, type Outcome } from '../../src/core/fatigue/index.ts';
import { createSheetGraph, linesOfSheet, readSnapshot, type SheetStates } from '../../src/graph/index.ts';
import { fingerprintOf, fnv64 } from '../../src/graph/fit/fingerprint.ts';
import { valuesOfSheet } from '../../src/graph/values-of-sheet.ts';
import { presentOrigins } from '../../src/report/present/origins.ts';
import { snapshotTexts } from '../../src/graph/fit/line-snapshot.ts';
import { applyEdit, enterText, parseSheet, serialiseSheet, type SheetDocument } from '../../src/sheet/index.ts';
import { step } from '../report/sheet-at.ts';
import { shipped } from '../shipped.ts';

const snLine = shipped('sn-line');

async function settled(document: SheetDocument): Promise<SheetStates> {
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return states;
}

function entered(document: SheetDocument, target: string, text: string): SheetDocument {
  const result = enterText(document, target, text);
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

const chosen = (choices: Readonly<Record<string, string>>): SheetDocument =>
  Object.entries(choices).reduce((document, [target, text]) => entered(document, target, text), parseSheet(snLine));

async function snapshotOf(document: SheetDocument): Promise<ReadonlyMap<string, string>> {
  const [line] = await linesOfSheet(document, 'The S-N line of the class', '2026-11-20');
  if (line?.snapshot === undefined) throw new Error(line?.trouble ?? 'no line');
  return line.snapshot;
}

/** A sheet with nothing but a fit that took the line. */
function holder(snapshot: ReadonlyMap<string, string> | undefined, more = ''): SheetDocument {
  const symbols = ['A', 'B', 'C', 'S_0', 's', 'k_95', 'n', 'failures', 'runouts', 'N_low', 'N_high', 'S_low', 'S_high'];
  const known = snapshot?.get('C') === undefined && snapshot?.get('S_0') === undefined ? symbols.filter((name) => name !== 'C' && name !== 'S_0') : symbols;
  const text = `\`\`\`fit\nid: taken\nlabel: A line\nsymbols:\n${known.map((name) => `  ${name}: ${name}\n`).join('')}\`\`\`\n\n${more}`;
  const result = applyEdit(parseSheet(text), { do: 'set entries', cellId: 'taken', key: 'snapshot', entries: snapshot ?? new Map() });
  if (!result.ok) throw new Error(result.problem.what);
  return parseSheet(serialiseSheet(result.value));
}

function held(document: SheetDocument): ReadonlyMap<string, string> | undefined {
  const [block] = document.blocks;
  return block?.kind === 'cell' && block.cell.kind === 'fit' ? block.cell.snapshot : undefined;
}

const WAYS: readonly Readonly<Record<string, string>>[] = [
  {}, { method: 'maximum-likelihood' }, { method: 'maximum-likelihood', life: 'weibull' }, { model: 'quadratic' },
  { method: 'maximum-likelihood', model: 'limit' }, { stress: 'plain' }, { group: 'steel K' },
];

describe('a snapshot', () => {
  it('says that its tests are invented as long as they are those of the example, and hands that on', async () => {
    const example = chosen({});
    const snapshot = await snapshotOf(example);
    expect(snapshot.get('invented')).toBe('yes');
    const taken = holder(snapshot);
    expect(presentOrigins(taken)).toMatchObject({ others: [{ cellId: 'taken' }], warning: 'Something of the invented example still stands in it.' });
    // What a sheet works out from such a line is invented, too.
    const { values } = await valuesOfSheet(holder(snapshot, step('two', '2*B', '1')), ['two']);
    expect(values.map(({ isInvented }) => isInvented)).toEqual([true]);
    const own = await snapshotOf(parseSheet(serialiseSheet(example).replaceAll(/^origin: example\n/gm, '')));
    expect([own.has('invented'), presentOrigins(holder(own)).warning]).toEqual([false, '']);
  });

  it.each(WAYS)('goes into a document and comes back to the last bit: %o', async (choices) => {
    const document = chosen(choices);
    const snapshot = await snapshotOf(document);
    const back = held(holder(snapshot));
    expect([...(back ?? [])]).toEqual([...snapshot]);
    const read = readSnapshot(back ?? new Map());
    const fit = (await settled(document)).cell('line')?.fit?.fit;
    if (!read.ok || fit === undefined) throw new Error('no line');
    expect(read.value.fit.parameters.map(({ value }) => value)).toEqual(fit.parameters.map(({ value }) => value));
    expect(read.value.fit.covariance).toEqual(storedLine(fit).covariance);
    expect([read.value.fit.s, read.value.fit.logLikelihood, read.value.fit.tested]).toEqual([fit.s, fit.logLikelihood, fit.tested]);
    expect(snapshotTexts(read.value.fit, read.value.source)).toEqual(snapshot);
  });

  it('keeps every double', () => {
    fc.assert(fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
      const snapshot = new Map([...SOUND, ['A', String(value)]]);
      const read = readSnapshot(held(holder(snapshot)) ?? new Map());
      expect(read.ok && read.value.fit.parameters[0]?.value).toBe(value === 0 ? 0 : value);
    }), { seed: 20261120, numRuns: 60 });
  });

  it.each(WAYS.slice(0, 6))('publishes what the live fit publishes, with its uncertainty and correlation: %o', async (choices) => {
    const document = chosen(choices);
    const symbols = [...(held(holder(await snapshotOf(document))) ?? new Map<string, string>()).keys()].filter((name) => /^[ABC]$|^S_0$/.test(name));
    const terms = symbols.map((name, i) => (i === 0 ? name : `${name}/unit(${UNITS[`${choices['stress'] ?? 'log'} ${name}`] ?? '1'})*${1.5 + i}`));
    const step = `\`\`\`step\nsymbol: q\nformula: ${terms.join(' + ')} + s\n\`\`\`\n`;
    const taken = await settled(holder(await snapshotOf(document), step));
    const names = [...symbols, 's', 'N_low', 'n'].map((name) => `  ${name}: ${name}`).join('\n');
    const live = snLine.replace(/symbols:\n(?: {2}.*\n)+/, `symbols:\n${names}\n`).split('\n```check')[0] ?? '';
    const own = await settled(Object.entries(choices).reduce((sheet, [target, text]) => entered(sheet, target, text), parseSheet(`${live}\n\n${step}`)));
    for (const name of [...symbols, 's', 'N_low', 'n', 'q']) {
      const [a, b] = [taken.symbol(name), own.symbol(name)];
      if (a?.status !== 'value' || b?.status !== 'value') throw new Error(`${name}: ${JSON.stringify([a, b])}`);
      expect(a.estimate.value, name).toBe(b.estimate.value);
      const [ours, theirs] = [standardUncertainty(a.estimate), standardUncertainty(b.estimate)];
      expect(Math.abs(ours - theirs), name).toBeLessThanOrEqual(1e-9 * theirs);
      expect(a.unit, name).toEqual(b.unit);
    }
  });

  it('is no trouble while it is awaited, until one of its symbols is read', async () => {
    const alone = await settled(holder(undefined));
    expect(alone.cell('taken')?.problems).toEqual([]);
    expect(alone.symbol('A')).toMatchObject({ status: 'problem', problem: { what: 'No fitted line has been brought in yet.' } });
    const read = await settled(holder(undefined, '```step\nsymbol: x\nformula: 2*A\n```\n\n```step\nsymbol: y\nformula: x\n```\n'));
    expect(read.cell('taken')?.problems).toEqual([]);
    expect(read.cell('x')?.problems[0]).toMatchObject({ what: 'No fitted line has been brought in yet.', mend: 'Take one from another sheet at “A line”.' });
    expect(read.cell('y')?.problems).toEqual([]);
  });

  it('that a sheet’s formulas are not made for is refused, and so is one beside a table', async () => {
    const curved = await snapshotOf(chosen({ model: 'quadratic' }));
    const asks = parseSheet(serialiseSheet(holder(curved)).replace('label: A line', 'label: A line\nmodel: linear'));
    expect((await settled(asks)).cell('taken')?.problems[0]?.what).toContain('made for a straight line, and what was brought in has a curved line');
    const both = parseSheet(serialiseSheet(holder(curved)).replace('label: A line', 'label: A line\ntable: tests'));
    expect((await settled(both)).cell('taken')?.problems.map(({ code }) => code)).toContain('fit-table-and-line');
  });
});

const UNITS: Readonly<Record<string, string>> = { 'log S_0': 'MPa', 'plain B': 'MPa^-1' };

/** Invented: a line that is in order. */
const SOUND: ReadonlyMap<string, string> = new Map(Object.entries({
  from: 'A class', fit: 'line', group: 'all', taken: '2026-11-20', method: 'least-squares', model: 'linear', life: 'lognormal', stress: 'log',
  A: '30', B: '-10', s: '0.2', covariance: '4; -1.5, 0.6; 0, 0, 0.05', n: '12', failures: '12', runouts: '0', levels: '4',
  degrees_of_freedom: '10', log_likelihood: '-150', tested_stress: '280 .. 460 MPa', tested_lives: '5e4 .. 1e7 cycles', data: '0123456789abcdef',
}));

describe('a hostile snapshot', () => {
  it.each<[key: string, text: string | undefined, words: string]>([
    ['A', undefined, 'says nothing of `A`'],
    ['A', '0x10', '`A` takes a number, not “0x10”'],
    ['A', '1e999', 'A has no value'],
    ['A', 'constructor', '`A` takes a number'],
    ['B', '-1,5', '`B` takes a number'],
    ['s', '-0.2', 's, the scatter, must be above zero'],
    ['s', 'NaN', '`s` takes a number'],
    ['n', '12.5', 'n must be a whole number'],
    ['n', '1e300', 'n must be a whole number'],
    ['failures', '3', 'as many'],
    ['covariance', '1', '3 rows with semicolons between'],
    ['covariance', '4; 9, 0.6; 0, 0, 0.05', 'can vary together'],
    ['covariance', '-4; 0, 0.6; 0, 0, 0.05', 'can vary together'],
    ['method', 'guess', 'one of: least-squares, maximum-likelihood'],
    ['model', '__proto__', 'one of: linear, quadratic, limit'],
    ['degrees_of_freedom', '1000', 'n less 2'],
    ['tested_lives', '1e7 .. 5e4 cycles', 'the lower one first'],
    ['tested_lives', '5e4 .. 1e7', 'two numbers and their unit'],
    ['tested_stress', '-280 .. 460 MPa', 'above zero'],
    ['tested_stress', '280 .. 460 ksi', 'two numbers and their unit, such as 280 .. 460 MPa'],
    ['taken', 'yesterday', 'a day such as 2026-11-20'],
    ['data', '<script>', 'a fingerprint'],
  ])('%s: %s', async (key, text, words) => {
    const entries = new Map(SOUND);
    if (text === undefined) entries.delete(key);
    else entries.set(key, text);
    const states = await settled(holder(entries));
    const [problem] = states.cell('taken')?.problems ?? [];
    expect(problem?.what).toContain(words);
    expect(problem).toMatchObject({ cell: 'taken', key: 'snapshot', mend: 'Take the line again from the sheet it came from.' });
    expect(states.cell('taken')?.fit).toBeUndefined();
    expect(states.symbol('A')?.status).toBe('problem');
  });

  it('with a covariance of a hundred thousand rows is refused at once', () => {
    const read = readSnapshot(new Map([...SOUND, ['covariance', ';'.repeat(100_000)]]));
    expect(read.ok ? '' : read.problem.what.length).toBeLessThan(300);
  });

  it('in order, it is taken', async () => {
    expect((await settled(holder(SOUND))).cell('taken')).toMatchObject({ problems: [], fit: { taken: { title: 'A class' } } });
  });

  it('of any texts never throws and never gives a number that is none', () => {
    const text = fc.oneof(fc.string(), fc.constantFrom('1e999', '-1', '0', '', '1; 2, 3; 4, 5, 6', '1 .. 2 MPa', ...SOUND.values()));
    fc.assert(fc.property(fc.dictionary(fc.constantFrom(...SOUND.keys()), text), (changes) => {
      const read = readSnapshot(new Map([...SOUND, ...Object.entries(changes)]));
      const numbers = (fit: LineFit): readonly number[] => [fit.s, ...fit.parameters.flatMap(({ value, se, lo, hi }) => [value, se, lo, hi]), ...fit.covariance.flat()];
      expect(read.ok ? numbers(read.value.fit).every(Number.isFinite) : read.problem.what !== '').toBe(true);
    }), { seed: 20261120, numRuns: 400 });
  });
});

describe('the fingerprint', () => {
  it('is FNV-1a of 64 bits: published test vectors of the authors', () => {
    expect(['', 'a', 'foobar'].map(fnv64)).toEqual(['cbf29ce484222325', 'af63dc4c8601ec8c', '85944171f73967e8']);
  });

  const row = fc.record({
    stress: fc.integer({ min: 200, max: 500 }), cycles: fc.integer({ min: 1000, max: 1e7 }), outcome: fc.constantFrom<Outcome>('fracture', 'runout', 'suspended'),
  });
  const print = (rows: readonly { stress: number; cycles: number; outcome: Outcome }[]): string =>
    fingerprintOf(rows.map(({ stress }) => stress), rows.map(({ cycles }) => cycles), rows.map(({ outcome }) => outcome));

  it('does not mind the order of rows and minds everything else', () => {
    fc.assert(fc.property(fc.array(row, { minLength: 2, maxLength: 30 }), fc.nat(), (rows, at) => {
      const place = at % rows.length;
      expect(print([...rows.slice(place), ...rows.slice(0, place).reverse()])).toBe(print(rows));
      const one = rows[place] ?? rows[0];
      if (one === undefined) return;
      const others = rows.filter((_, i) => i !== place);
      expect(print(others)).not.toBe(print(rows));
      expect(print([...others, { ...one, cycles: one.cycles + 1 }])).not.toBe(print(rows));
      expect(print([...others, { ...one, stress: one.stress + 1 }])).not.toBe(print(rows));
      expect(print([...others, { ...one, outcome: one.outcome === 'runout' ? 'fracture' : 'runout' }])).not.toBe(print(rows));
    }), { seed: 20261120 });
  });

  it('is of the rows that the fit was given: another unit and an invalid row change nothing, another group does', async () => {
    const print = async (document: SheetDocument): Promise<string | undefined> => (await snapshotOf(document)).get('data');
    const rows = (text: string): SheetDocument => {
      const replaced = applyEdit(parseSheet(snLine), { do: 'replace rows', cellId: 'specimens', text });
      if (!replaced.ok) throw new Error(replaced.problem.what);
      return replaced.value;
    };
    const plain = await print(rows('specimen,S [MPa],N,outcome\na,400,1e5,fracture\nb,350,3e5,fracture\nc,300,1e6,fracture\nd,280,1e7,runout\n'));
    expect(await print(rows('specimen,S [GPa],N,outcome\nd,0.28,1e7,runout\nc,0.3,1e6,fracture\ne,0.2,5,invalid\nb,0.35,3e5,fracture\na,0.4,1e5,fracture\n'))).toBe(plain);
    expect(await print(rows('specimen,S [MPa],N,outcome\na,400,1e5,fracture\nb,350,3e5,fracture\nc,300,1e6,fracture\n'))).not.toBe(plain);
    expect(await print(chosen({ group: 'steel K' }))).not.toBe(await print(chosen({ group: 'steel M' })));
  });
});

/** One place for the materials: what the other sheets offer is held, value by value and source by source, to the table in materials.md. */
import { describe, expect, it } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { parseQuantity, parseUnit } from '../../src/core/units/index.ts';
import { parseSheet, type ChoiceOption } from '../../src/sheet/index.ts';
import { SHIPPED, shipped } from '../shipped.ts';

const text = shipped('materials');
const VALUES = ['S_ut', 'S_y', 'E', 'S_n'] as const;
const UNITS: Readonly<Record<string, string>> = { S_ut: 'MPa', S_y: 'MPa', E: 'GPa', S_n: 'MPa' };

function rows(): readonly Readonly<Record<string, string>>[] {
  const block = parseSheet(text).blocks.find(({ id }) => id === 'materials');
  if (block?.kind !== 'cell' || block.cell.kind !== 'table') throw new Error('no table of materials');
  const [head = '', ...lines] = block.cell.rows.trim().split('\n');
  const fields = (line: string) => [...line.matchAll(/(?:^|,)(?:"([^"]*)"|([^,]*))/g)].map((match) => match[1] ?? match[2] ?? '');
  const names = fields(head);
  return lines.map((line) => Object.fromEntries(fields(line).map((field, i) => [names[i] ?? '', field])));
}

function sources(): ReadonlyMap<string, string> {
  return new Map([...text.matchAll(/^- ([^:]+): ([^\n]+?)\.(?: |$)/gm)].map((match) => [match[1] ?? '', match[2] ?? '']));
}

function siOf(typed: string, value: string): number {
  const unit = parseUnit(UNITS[value] ?? '');
  if (!unit.ok) throw new Error(unit.problem.what);
  // The sheets add by how much bars of one grade differ; the table has the bare values.
  const read = parseQuantity(typed.replace(/ ± (?:5|10) %$/u, ''), unit.value);
  if (!read.ok) throw new Error(`${value}: ${read.problem.what}`);
  return read.value.value;
}

/** Options of the choice of material in every standard sheet, but for those whose values the reader types. */
function offered(): readonly (readonly [string, ChoiceOption])[] {
  return SHIPPED.flatMap((name) => {
    const block = parseSheet(shipped(name)).blocks.find(({ id }) => id === 'material');
    if (block?.kind !== 'cell' || block.cell.kind !== 'choice') return [];
    return block.cell.options.filter(({ sets }) => sets.has('S_ut')).map((option) => [`${name}: ${option.key}`, option] as const);
  });
}

describe('the table of materials', () => {
  it('is in order: every row is used, nothing is in error', async () => {
    const document = parseSheet(text);
    const graph = createSheetGraph(document);
    const states = await graph.settled();
    graph.dispose();
    expect(document.blocks.flatMap(({ id }) => states.cell(id)?.problems ?? [])).toEqual([]);
    expect(states.cell('materials')?.table?.rowCount).toBe(rows().length);
  });

  it('has no value without a source that is listed', () => {
    const known = sources();
    for (const row of rows()) {
      for (const value of VALUES) expect(row[value] === '' || known.has(row[`from_${value}`] ?? ''), `${row['key']} ${value}`).toBe(true);
      expect(row['sigma_f'] === '' || known.has(row['from_line'] ?? ''), `${row['key']} line`).toBe(true);
    }
  });

  it('says plainly that it is not for design', () => {
    expect(text).toContain('typical values, not for design');
  });
});

describe('what the sheets offer', () => {
  it('is offered by two sheets at least', () => {
    expect(new Set(offered().map(([where]) => where.split(':')[0])).size).toBeGreaterThanOrEqual(2);
  });

  it('is every material of the table, but for those whose limit is no half of their strength', () => {
    // Half the tensile strength is the limit of carbon and low-alloy steels; what holds for an austenitic steel or titanium is typed (common practice, no published source).
    const elsewhere = ['304-annealed', 'Ti-6Al-4V'];
    const keys = rows().filter(({ key = '' }) => !elsewhere.includes(key)).map(({ key }) => key);
    const offers = (name: string) => offered().filter(([where]) => where.startsWith(`${name}:`)).map(([, { key }]) => key);
    expect(offers('rotating-bending')).toEqual(keys);
    expect(offers('alternating-bending')).toEqual(keys);
    // The constants of the notch sensitivity are those of steels.
    expect(offers('specimen')).toEqual(rows().filter(({ kind }) => kind === 'steel').map(({ key }) => key));
  });

  it('has a fatigue strength for every metal without an endurance limit', () => {
    for (const row of rows().filter(({ kind }) => kind === 'aluminium')) expect(row['S_n'], row['key']).not.toBe('');
  });

  it.each(offered())('%s stands in the table with the same values and sources', (_where, option) => {
    const row = rows().find(({ key }) => key === option.key);
    expect(row, 'no row of that key').toBeDefined();
    expect(option.label).toBe(row?.['name']);
    expect(option.sets.get('S_ut')).toMatch(/ ± 5 %$/u);
    expect(option.sets.has('S_n')).toBe(row?.['kind'] === 'aluminium');
    for (const value of VALUES.filter((one) => option.sets.has(one))) {
      expect(siOf(option.sets.get(value) ?? '', value), value).toBe(siOf(row?.[value] ?? '', value));
      expect(option.source, value).toContain(sources().get(row?.[`from_${value}`] ?? '') ?? 'no source');
    }
    expect(option.source).toContain('Typical, not of your bar.');
  });
});

import { answered, proposeRowsIn, rowsIn, type RowsInProposal } from '../graph/index.ts';
import type { RowField } from '../report/index.ts';
import { writeOutgoing, type TableCell } from '../sheet/index.ts';
import type { ReturnedSheet } from './types.ts';
import { nameOf } from './words.ts';

/** A finished specimen of one team. */
export interface PooledSpecimen {
  readonly sheet: ReturnedSheet;
  readonly specimen: string;
  /** By column of a table of specimens, with the file that it comes from. */
  readonly row: ReadonlyMap<string, RowField>;
}

/** A test that is not among them, and why. */
export interface UnpooledTest {
  readonly sheet: ReturnedSheet;
  readonly reason: string;
}

/** The specimens of a class, each once. */
export interface Pool {
  readonly specimens: readonly PooledSpecimen[];
  readonly left: readonly UnpooledTest[];
}

/** Specimens of all tests that came to an end. One that is there already, under the same name, is left out and told. */
export function pooled(sheets: readonly ReturnedSheet[]): Pool {
  const specimens = new Map<string, PooledSpecimen>();
  const left: UnpooledTest[] = [];
  for (const sheet of sheets) {
    for (const { label, phase, row } of sheet.tests) {
      if (row === undefined) {
        if (phase !== 'not started') left.push({ sheet, reason: phase === 'ended' ? `“${label}” is ended, and its outcome, stress or cycles are not all there.` : `“${label}” is not ended.` });
        continue;
      }
      const specimen = row.get('specimen')?.text ?? '';
      const there = specimens.get(specimen.toLowerCase());
      if (specimen === '') left.push({ sheet, reason: 'It says no specimen in its title block, so that it could be counted twice.' });
      else if (there !== undefined) left.push({ sheet, reason: againReason(specimen, row, there) });
      else specimens.set(specimen.toLowerCase(), { sheet, specimen, row: new Map([...row, ['file', { text: sheet.files[0] ?? '' }]]) });
    }
  }
  return { specimens: [...specimens.values()], left };
}

function againReason(specimen: string, row: ReadonlyMap<string, RowField>, there: PooledSpecimen): string {
  const isSame = ['S', 'N', 'outcome'].every((key) => row.get(key)?.text === there.row.get(key)?.text);
  return isSame ? `Specimen ${specimen} is there already, with the same test, from ${nameOf(there.sheet)}.`
    : `Specimen ${specimen} is there already, with another test, from ${nameOf(there.sheet)}. Give one of the two another name in its sheet.`;
}

/** The specimens as delimited text with a head, as a table of specimens takes it: the unit in the head where all have the same, else with each number. */
export function poolCsv({ specimens }: Pool): string {
  const keys = [...new Set(specimens.flatMap(({ row }) => [...row.keys()]))].filter((key) => specimens.some(({ row }) => (row.get(key)?.text ?? '') !== ''));
  const units = new Map(keys.map((key) => [key, new Set(specimens.flatMap(({ row }) => ((row.get(key)?.text ?? '') === '' ? [] : [row.get(key)?.unit ?? ''])))]));
  const common = (key: string): string => (units.get(key)?.size === 1 ? ([...(units.get(key) ?? [])][0] ?? '') : '');
  const heads = keys.map((key) => (common(key) === '' ? key : `${key} [${common(key)}]`));
  const field = (row: PooledSpecimen['row'], key: string): string => {
    const { text = '', unit = '' } = row.get(key) ?? {};
    return text === '' || unit === '' || common(key) !== '' ? text : `${text} ${unit}`;
  };
  return [heads, ...specimens.map(({ row }) => keys.map((key) => field(row, key)))].map((line) => `${writeOutgoing(line, ',')}\n`).join('');
}

/** What would become of them in a table of specimens: those that it has already stay as they are. */
export function poolInto(pool: Pool, table: TableCell): RowsInProposal {
  return proposeRowsIn(answered(rowsIn(poolCsv(pool), { from: 'returned files' }), { answer: 'again', again: 'stay' }), table);
}

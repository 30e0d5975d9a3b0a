import { applyEdit } from './edit.ts';
import { parseSheet, serialiseSheet } from './parse.ts';
import { symbolsGiven } from './rename/rename-symbol.ts';
import { freshSymbol } from './symbols.ts';
import type { SheetDocument } from './types.ts';

/** Cells that belong together, ready to be changed. */
export type GroupName = 'measurement' | 'statics' | 'asked';

const cell = (kind: string, ...lines: readonly string[]): string => ['```' + kind, ...lines, '```', ''].join('\n');
const length = (symbol: string, label: string): string => cell('given', `symbol: ${symbol}`, `label: ${label}`, 'unit: mm', 'readings:', 'instrument: steel rule, 0.5 mm');

/** Symbols are those of the field; where the sheet has one already, the group gets another. */
const GROUPS: Readonly<Record<GroupName, readonly string[]>> = {
  measurement: [
    cell('given', 'symbol: x_1', 'label: New measured quantity', 'unit: mm', 'readings:', 'instrument: caliper', 'plausible: 1 mm .. 500 mm', 'note: Say here how it is measured.'),
    cell('check', 'label: Whether it was measured', 'condition: x_1 > 0*unit(mm)', 'holds: "It is {=x_1}."', 'otherwise: Measure it again.', 'concerns: x_1'),
  ],
  statics: [
    length('L', 'Span between the supports'), length('s_1', 'Left support to the load'),
    cell('given', 'symbol: F', 'label: Load', 'unit: N', 'readings:', 'instrument: weights'),
    cell('given', 'symbol: d', 'label: Diameter at the load', 'unit: mm', 'readings:', 'instrument: micrometer'),
    cell('check', 'label: The load stands between the supports', 'condition: s_1 < L', 'holds: "The load stands {=s_1} from the left support, of {=L}."', 'otherwise: Look at the two spans again.', 'concerns: L, s_1'),
    cell('step', 'symbol: R_A', 'label: Reaction of the left support', 'formula: F*(L - s_1)/L', 'unit: N', 'note: Moments about the right support.'),
    cell('step', 'symbol: R_B', 'label: Reaction of the right support', 'formula: F - R_A', 'unit: N'),
    cell('step', 'symbol: M', 'label: Bending moment at the load', 'formula: R_A*s_1', 'unit: N*m'),
    cell('figure', 'label: Free body', 'drawing: shear-moment', 'values:', '  span: L', '  s1: s_1', '  F1: F', '  RA: R_A', '  RB: R_B', '  section: s_1', '  moment: M', '  diameter: d'),
    cell('step', 'symbol: sigma', 'label: Nominal bending stress', 'formula: 32*M/(pi*d^3)', 'unit: MPa'),
  ],
  asked: [cell('step', 'symbol: y_1', 'label: What is asked', 'formula: 1', 'unit: "1"', 'asked: true', 'tolerance: 2 %', 'tries: 3')],
};

/** The source of a group of cells, without a symbol that the sheet has already. */
export function groupSource(name: GroupName, document: SheetDocument): string {
  const taken = new Set(document.blocks.flatMap((block) => (block.kind === 'cell' ? symbolsGiven(block.cell) : [])));
  const own = parseSheet(GROUPS[name].join('\n'));
  const symbols = own.blocks.flatMap((block) => (block.kind === 'cell' ? symbolsGiven(block.cell) : [])).filter((symbol) => taken.has(symbol));
  return serialiseSheet(symbols.reduce((group, from) => {
    const renamed = applyEdit(group, { do: 'rename symbol', from, to: freshFor(from, document, group) });
    return renamed.ok ? renamed.value : group;
  }, own));
}

/** A symbol that neither of the two has. */
function freshFor(like: string, ...documents: readonly SheetDocument[]): string {
  return documents.reduce((symbol, document) => (document.blocks.some((block) => block.kind === 'cell' && symbolsGiven(block.cell).includes(symbol)) ? freshSymbol(symbol, document) : symbol), like);
}

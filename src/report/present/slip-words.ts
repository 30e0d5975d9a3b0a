import type { Explanation, Slip } from '../../core/diagnosis/index.ts';
import { printFormula, symbolInWords } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/types.ts';
import { composed, isolated } from '../../core/problem/index.ts';
import { slipsOffered } from '../../sheet/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import { calledIn } from './lookup.ts';
import { plainFigures, unitText } from './number.ts';
import type { WholeContext } from './types.ts';

/** What a result comes of, as words that follow `comes of`: a hint, with nothing of what is right in it. */
export function explanationWords({ slips, at }: Explanation, symbol: string, context: WholeContext): string {
  const words = slips.map((slip) => slipWords(slip, symbol, context.document)).join(', and of ');
  return at === undefined ? words : composed`${words} (at ${calledIn(context, at)})`;
}

function slipWords(slip: Slip, asked: string, document: SheetDocument): string {
  switch (slip.kind) {
    case 'listed':
      return listedWords(slip.id, asked, document);
    case 'power of ten':
      return `a power of ten: ${plainFigures(10 ** Math.abs(slip.power), 1)} times too ${slip.power > 0 ? 'large' : 'small'}, so look at the units put in`;
    case 'factor':
      return slip.factor > 1 ? `a factor of ${slip.factor} put in once too often` : `a factor of ${Math.round(1 / slip.factor)} forgotten`;
    case 'sign':
      return 'the other sign';
    case 'unit':
      return `a number in ${unitText(slip.to)} given as ${unitText(slip.from)}`;
    case 'digits':
      return 'two digits that changed places';
    case 'times':
      return timesWords(slip.symbol, slip.factor);
    case 'symbol in unit':
      return `${symbolInWords(slip.symbol)} put in as if it were in ${unitText(slip.to)}`;
    case 'another symbol':
      return `${symbolInWords(slip.taken)} put in for ${symbolInWords(slip.symbol)}`;
    case 'digits inside':
      return `${symbolInWords(slip.symbol)} put in with two digits that changed places`;
    case 'changed places':
      return `${symbolInWords(slip.symbol)} and ${symbolInWords(slip.taken)} that changed places`;
    case 'function left out':
      return slip.name === '10^' ? 'the logarithm given for the number itself' : `${slip.name}( ) left out`;
    default:
      return partWords(slip);
  }
}

function timesWords(symbol: string, factor: number): string {
  const name = symbolInWords(symbol);
  if (factor === 0.5) return `half of ${name} put in for ${name}`;
  if (factor === 2) return `twice ${name} put in for ${name}`;
  return `a power of ten in ${name}: put in ${plainFigures(factor > 1 ? factor : 1 / factor, 1)} times too ${factor > 1 ? 'large' : 'small'}`;
}

function partWords(slip: Extract<Slip, { readonly part: Expression }>): string {
  const part = printFormula(slip.part);
  switch (slip.kind) {
    case 'power':
      return `a power of ${slip.taken} where “${part}” has ${slip.right}`;
    case 'left out':
      return `“${part}” left out`;
    case 'sign inside':
      return `a wrong sign in “${part}”`;
    case 'sign of a power':
      return `the other sign of the exponent in “${part}”`;
    case 'turned over':
      return `“${part}” turned over`;
    case 'multiplied':
      return `multiplying by “${part}” in place of dividing`;
    case 'divided':
      return `dividing by “${part}” in place of multiplying`;
    case 'logarithm':
      return 'a logarithm to the other base';
    case 'degrees':
      return 'degrees put in for radians';
    case 'function left out':
      return `${slip.name}( ) left out`;
  }
}

function listedWords(id: string, asked: string, document: SheetDocument): string {
  const offered = slipsOffered(document).find((one) => one.id === id);
  if (offered === undefined) throw new Error(`no slip ${id} in the sheet`);
  const { cell, slip } = offered;
  return cell.symbol === asked ? isolated(slip.label) : composed`${slip.label} (at ${cell.label ?? cell.symbol})`;
}

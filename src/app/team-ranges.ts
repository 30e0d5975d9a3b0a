import { symbolInWords } from '../core/formula/index.ts';
import { composed } from '../core/problem/index.ts';
import { fromSI } from '../core/units/index.ts';
import { parseBounds, readVariation, unitOf } from '../graph/index.ts';
import type { AskedStates } from '../graph/types.ts';
import { asKind, cellsOf, type Cell, type EditCommand, type GivenCell, type SheetDocument } from '../sheet/index.ts';
import type { Offer, Ranges } from './teams-types.ts';

/** What the sheet says of its teams' numbers, and what else it could say it of. */
export function rangesOf(document: SheetDocument, states: AskedStates): Ranges {
  const [givens, steps, checks] = [cellsOf(document, 'given'), cellsOf(document, 'step'), cellsOf(document, 'check')];
  return {
    varied: givens.flatMap((cell) => (cell.varies === undefined ? [] : [{ ...offerOf(cell), text: cell.varies, present: (cell.readings ?? cell.value ?? '').trim(), refused: refusedRange(cell, cell.varies) }])),
    furtherGivens: givens.filter(({ varies, symbol }) => varies === undefined && symbol !== '').map(offerOf),
    wanted: steps.flatMap((cell) => {
      const unit = states.symbol(cell.symbol)?.unit;
      const bounds = cell.wanted === undefined || unit === undefined ? undefined : parseBounds(cell.wanted, unit);
      return cell.wanted === undefined ? [] : [{ ...offerOf(cell), text: cell.wanted, refused: bounds?.ok === false ? said(bounds.problem) : undefined }];
    }),
    furtherSteps: steps.filter(({ wanted, symbol }) => wanted === undefined && symbol !== '').map(offerOf),
    checks: checks.filter(({ wanted }) => wanted === true).map(offerOf),
    furtherChecks: checks.filter(({ wanted }) => wanted !== true).map(offerOf),
  };
}

function offerOf(cell: Cell): Offer {
  const symbol = (asKind(cell, 'given') ?? asKind(cell, 'step'))?.symbol;
  const label = cell.label ?? symbol ?? cell.id;
  return { cellId: cell.id, label: symbol === undefined ? composed`${label}` : composed`${label} (${symbolInWords(symbol)})` };
}

function refusedRange(cell: GivenCell, text: string): string | undefined {
  const unit = unitOf(cell, undefined);
  const read = unit.ok ? readVariation(text, unit.value) : unit;
  return read.ok ? undefined : said(read.problem);
}

function said({ what, mend }: { readonly what: string; readonly mend: string }): string {
  return `${what} ${mend}`;
}

/** The edit that takes a cell up: a given varies about what stands in it, a result is kept about what it is, a check has to hold. */
export function takingUp(cell: Cell, states: AskedStates): EditCommand {
  const [given, step] = [asKind(cell, 'given'), asKind(cell, 'step')];
  const about = states.symbol((given ?? step)?.symbol ?? '');
  const [value, unit] = about?.status === 'value' ? [fromSI(about.estimate.value, about.unit), about.unit.name] : [1, about?.unit?.name ?? '1'];
  const key = given === undefined ? 'wanted' : 'varies';
  return { do: 'set key', cellId: cell.id, key, value: given === undefined && step === undefined ? 'true' : rangeAbout(value, unit, given !== undefined) };
}

/** Some twenty round numbers within a tenth to either side. */
function rangeAbout(value: number, unit: string, hasStep: boolean): string {
  const reach = value === 0 ? 1 : Math.abs(value) / 10;
  const power = 10 ** Math.floor(Math.log10(reach / 10));
  const step = [1, 2, 5, 10].map((times) => times * power).find((one) => reach / one <= 12) ?? power;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const written = (number: number): string => `${number.toFixed(decimals)}${unit === '1' ? '' : ` ${unit}`}`;
  const [low, high] = [Math.round((value - reach) / step) * step, Math.round((value + reach) / step) * step];
  return `${written(low)} .. ${written(high)}${hasStep ? ` step ${written(step)}` : ''}`;
}

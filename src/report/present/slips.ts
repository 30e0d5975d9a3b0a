import { parseFormula, typeset } from '../../core/formula/index.ts';
import { standardUncertainty } from '../../core/estimate/index.ts';
import { isolated, type Problem } from '../../core/problem/index.ts';
import { fromSI } from '../../core/units/index.ts';
import { rightStates, slipsOn } from '../../graph/index.ts';
import type { SymbolState } from '../../graph/types.ts';
import { asKind, slipsOffered, type OfferedSlip } from '../../sheet/index.ts';
import type { GivenCell, SheetDocument, StepCell } from '../../sheet/types.ts';
import { isHidden } from './hidden.ts';
import { figures, plainFigures, unitText, withUnit } from './number.ts';
import { presentSymbol } from './result.ts';
import { symbolOf } from './symbol.ts';
import { asked, seenAs } from './asked.ts';
import type { PresentContext, PresentedSlip, PresentedSlipMark, WholeContext } from './types.ts';

/** Stands behind every value that a slip has moved, wherever the value is quoted. */
export const SLIP_MARK = '[slip]';
/** In the names of files, and at the head of a column that says so in every row. */
export const SLIPS_IN_NAME = 'slips on';
export const SLIPS_HEAD = 'slips switched on, no results';

/** The slips switched on, in the order of the sheet. */
export function presentSlipsOn({ document }: Pick<PresentContext, 'document'>): readonly PresentedSlip[] {
  return slipsOn(document).on.map((slip) => presentSlip(slip, true));
}

/** Every slip of the sheet. */
export function presentSlips({ document }: PresentContext): readonly PresentedSlip[] {
  const { on } = slipsOn(document);
  return slipsOffered(document).map((slip) => presentSlip(slip, on.includes(slip)));
}

/** What the document wants switched on and can't have. */
export function slipListProblems(document: SheetDocument): readonly Problem[] {
  return slipsOn(document).problems;
}

function presentSlip({ id, cell, slip }: OfferedSlip, on: boolean): PresentedSlip {
  return {
    id,
    cellId: cell.id,
    symbol: cell.symbol,
    where: isolated(cell.label ?? cell.symbol),
    label: isolated(slip.label),
    ...(slip.note === undefined ? {} : { note: slip.note }),
    ...(slip.source === undefined ? {} : { source: slip.source }),
    on,
  };
}

/** One sentence that says what is switched on, for the head of files; undefined where nothing is. */
export function slipSentence(context: Pick<PresentContext, 'document'>): string | undefined {
  const on = presentSlipsOn(context);
  if (on.length === 0) return undefined;
  const list = on.map(({ where, label }) => `${where}: ${label}`).join('; ');
  return `${on.length === 1 ? 'A slip is' : `${on.length} slips are`} switched on, to show what a common mistake does (${list}). Values marked ${SLIP_MARK} are wrong on purpose, not results.`;
}

/** Whether a slip changes what a cell says: then its state is another than that of the sheet without slips. */
export function isTouchedBySlips(cellId: string, context: PresentContext): boolean {
  return asked(context, touches, cellId);
}

const touches = ({ document, states }: WholeContext, cellId: string) =>
  slipsOn(document).on.length > 0 && states.cell(cellId) !== rightStates(document, states).cell(cellId);

export function isMovedBySlips(symbol: string, context: PresentContext): boolean {
  return asked(context, moves, symbol);
}

const moves = ({ document, states }: WholeContext, symbol: string) =>
  slipsOn(document).on.length > 0 && isElse(rightStates(document, states).symbol(symbol), states.symbol(symbol));

/** The sheet without any slip. */
export function withoutSlips(context: PresentContext): PresentContext {
  return seenAs(context, rightly);
}

const rightly = (whole: WholeContext): WholeContext => ({ ...whole, states: rightStates(whole.document, whole.states) });

const slipAt = ({ document }: WholeContext, cellId: string) => slipsOn(document).on.find((slip) => slip.cell.id === cellId);

/** Ratios nearer to 1 than this are of rounding. */
const ROUNDING = 1e-12;

/** Whether two results say something else, in value or uncertainty. */
export function isElse(a: SymbolState | undefined, b: SymbolState | undefined): boolean {
  if (a === b) return false;
  if (a?.status !== 'value' || b?.status !== 'value') return a?.status !== b?.status || JSON.stringify(a) !== JSON.stringify(b);
  return isApart(a.estimate.value, b.estimate.value) || isApart(standardUncertainty(a.estimate), standardUncertainty(b.estimate));
}

function isApart(a: number, b: number): boolean {
  return Math.abs(a - b) > ROUNDING * Math.max(Math.abs(a), Math.abs(b));
}

/** What the slips switched on do to a given or a step; undefined where they do nothing. */
export function presentSlipMark(cell: GivenCell | StepCell, context: PresentContext): PresentedSlipMark | undefined {
  const here = asked(context, slipAt, cell.id);
  if (here === undefined && !isMovedBySlips(cell.symbol, context)) return undefined;
  const rightContext = withoutSlips(context);
  const right = isHidden(cell.id, context) ? undefined : presentSymbol(cell.symbol, rightContext);
  const effect = isHidden(cell.id, context) ? undefined : effectBetween(rightContext.states.symbol(cell.symbol), context.states.symbol(cell.symbol));
  const expression = here === undefined || asKind(cell, 'step') === undefined ? undefined : rightContext.states.cell(cell.id)?.expression;
  return {
    ...(here === undefined ? {} : { slip: presentSlip(here, true) }),
    ...(here !== undefined && asKind(cell, 'given') !== undefined ? slippedTex(here) : {}),
    ...(expression === undefined ? {} : { rightTex: `${symbolOf(cell.symbol)} = ${typeset(expression)}` }),
    ...(right === undefined ? {} : { right: right.kind === 'problem' ? right.problem.what : right.text }),
    ...(effect === undefined ? {} : { effect }),
  };
}

function slippedTex({ slip }: OfferedSlip): { slippedTex?: string } {
  const parsed = parseFormula(slip.formula);
  return parsed.ok ? { slippedTex: typeset(parsed.value) } : {};
}

/** How far a wrong result is from the right one, in words; `short` beside the name of the result: `× 8`. */
export function effectBetween(right: SymbolState | undefined, wrong: SymbolState | undefined, short = false): string | undefined {
  if (right?.status !== 'value' || wrong?.status !== 'value') return undefined;
  const [was, is] = [right.estimate.value, wrong.estimate.value];
  if (!isApart(is, was)) return 'the same value, with another uncertainty';
  if (was !== 0 && wrong.unit.offset === 0) return short ? `×\u00a0${timesText(is / was)}` : `${timesText(is / was)} times what is right`;
  const away = withUnit(figures(fromSI(is, wrong.unit) - fromSI(was, wrong.unit), 3), unitText(wrong.unit));
  return short ? `${away} away` : `${away} away from what is right`;
}

/** A ratio with the digits that say something: `8`, `0.125`, `3.98`, `1.0049`, `1.2·10⁻⁷`. */
function timesText(ratio: number): string {
  if (ratio === 0) return '0';
  const nearOne = Math.ceil(-Math.log10(Math.max(Math.abs(ratio - 1), 1e-9)));
  return plainFigures(ratio, Math.max(3, nearOne + 2));
}


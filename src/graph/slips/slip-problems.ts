import { checkDimensions } from '../../core/formula/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { describeDimension, sameDimension, type Dimension } from '../../core/units/index.ts';
import type { CellSlip, GivenCell, StepCell } from '../../sheet/types.ts';
import { parseRemembered, readsOf } from '../formulas.ts';
import type { CompileContext } from '../compiled-types.ts';

/**
 * Why a slip can't stand in the place it is meant for: its formula can't be read, takes a name that nothing has, or gives
 * another kind of quantity. A slip is a mistake that gets past the dimensions; others need no showing.
 * @param right dimension of the quantity that it makes wrong; undefined where that is not known
 */
export function slipProblem(slip: CellSlip, right: Dimension | undefined, context: CompileContext): Problem | undefined {
  const parsed = parseRemembered(slip.formula);
  const at = { text: slip.formula, key: 'slips' };
  if (!parsed.ok) return { ...parsed.problem, key: 'slips' };
  // A symbol in trouble upstream has no dimension: then there is nothing to compare yet.
  const { definitions } = context.names;
  if (readsOf([parsed.value]).some((name) => definitions.has(name) && context.dimensions.get(name) === undefined)) return undefined;
  const found = checkDimensions(parsed.value, (name) => context.dimensions.get(name));
  if (!found.ok) return { ...found.problem, ...at };
  if (found.value !== 'truth' && (right === undefined || sameDimension(found.value, right))) return undefined;
  return {
    code: 'slip-dimension',
    what: `The slip \`${slip.key}\` gives ${found.value === 'truth' ? 'a statement' : describeDimension(found.value)}, where ${
      right === undefined ? 'a quantity' : describeDimension(right)} is meant.`,
    mend: 'Give it a formula for the same kind of quantity.',
    key: 'slips',
  };
}

/** The same for the slips of a cell that are not in force: they have to be sound before somebody switches them on. */
export function slipWarnings(
  cell: GivenCell | StepCell, inForce: CellSlip | undefined, right: Dimension | undefined, context: CompileContext,
): readonly Problem[] {
  if (right === undefined) return [];
  return (cell.slips ?? []).flatMap((slip) => (slip === inForce ? [] : (slipProblem(slip, right, context) ?? [])));
}

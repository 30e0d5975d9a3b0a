import type { Span } from '../problem/index.ts';
import type { Unit } from '../units/types.ts';

export type ArithmeticOperator = '+' | '-' | '*' | '/' | '^';
export type ComparisonOperator = '<' | '<=' | '>' | '>=';

/** The one intermediate form of a formula; typesetting, evaluation, differentiation and block evaluation read it. */
export type Expression =
  | { readonly kind: 'number'; readonly value: number; readonly text: string; readonly span: Span }
  | { readonly kind: 'symbol'; readonly name: string; readonly span: Span }
  | { readonly kind: 'unit'; readonly unit: Unit; readonly span: Span }
  | { readonly kind: 'negative'; readonly operand: Expression; readonly span: Span }
  | {
      readonly kind: 'arithmetic';
      readonly operator: ArithmeticOperator;
      readonly left: Expression;
      readonly right: Expression;
      readonly span: Span;
    }
  | { readonly kind: 'call'; readonly name: string; readonly arguments: readonly Expression[]; readonly span: Span }
  | {
      readonly kind: 'comparison';
      readonly operator: ComparisonOperator;
      readonly left: Expression;
      readonly right: Expression;
      readonly span: Span;
    }
  | { readonly kind: 'and' | 'or'; readonly left: Expression; readonly right: Expression; readonly span: Span }
  | { readonly kind: 'not'; readonly operand: Expression; readonly span: Span };

/** A function of several plain numbers: its value and slopes, and what it asks of its arguments. */
export interface FunctionOfSeveral {
  /** NaN or an infinity where there is no value. */
  readonly value: (x: readonly number[]) => number;
  /** Partial derivatives by the arguments at x, where the value is y. */
  readonly slopes: (x: readonly number[], y: number) => readonly number[];
  /** What the arguments must be, for the sentence about a missing value. */
  readonly needs: string;
  /** The place of the argument that has no value there; the first where several together have none. */
  readonly fault: (x: readonly number[]) => number;
}

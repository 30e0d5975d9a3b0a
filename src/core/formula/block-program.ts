import * as loops from './block-operations.ts';
import type { Block } from './block-operations.ts';
import { structureOf } from './repeated.ts';
import type { Expression } from './types.ts';

/** A number that all places share, or one value a place. */
export type Operand = number | Block;

/** What the symbols of an expression stand for. */
export interface BlockNames {
  readonly column: (name: string) => Operand;
  readonly standardUncertainty: (name: string) => number;
  readonly best: (name: string) => number;
}

/** Places at a time: few enough that the buffers of one formula stay in the processor's cache. */
export const BLOCK = 1024;

type Operation = (count: number) => void;
type Call = Extract<Expression, { kind: 'call' }>;

/**
 * Formulas made into a list of loops over blocks of values, to be run again and again without new memory.
 * What all places share is worked out at once, while the program is made; `if` works out only the branches that some place needs.
 */
export class BlockProgram {
  /** Places that one run can have. */
  readonly length: number;
  readonly #constants = new Map<number, Block>();
  /** Buffers of intermediate results, and those of them that nothing reads any more. */
  readonly #temporary = new Set<Block>();
  readonly #spare: Block[] = [];
  #operations: Operation[] = [];
  readonly #repeated: ReadonlySet<string>;
  /** What repeated structures are, as far as they are worked out wherever something is added now. */
  #found: ReadonlyMap<string, Operand> = new Map();

  /** @param repeated structures that stand in several places of what will be added (`repeatedIn`): worked out once. A name must be the same operand in all of it */
  constructor(length = BLOCK, repeated: ReadonlySet<string> = new Set()) {
    this.length = length;
    this.#repeated = repeated;
  }

  /** A buffer to be filled before each run. */
  column(): Block {
    return new Float64Array(this.length);
  }

  /** Works the expressions added so far out for the first `count` places of the columns, in the order in which they were added. */
  run(count: number): void {
    for (const operation of this.#operations) operation(count);
  }

  /** Adds an expression; its values are in the block that comes back after each run. A shared value comes back at once. */
  add(e: Expression, names: BlockNames): Operand {
    const result = this.#operand(e, names);
    if (typeof result !== 'number') this.#temporary.delete(result);
    return result;
  }

  #operand(e: Expression, names: BlockNames): Operand {
    if (this.#repeated.size === 0 || !this.#repeated.has(structureOf(e))) return this.#anew(e, names);
    const structure = structureOf(e);
    const known = this.#found.get(structure);
    if (known !== undefined) return known;
    const operand = this.#anew(e, names);
    // Others read it: nothing is written over it.
    if (typeof operand !== 'number') this.#temporary.delete(operand);
    this.#found = new Map(this.#found).set(structure, operand);
    return operand;
  }

  #anew(e: Expression, names: BlockNames): Operand {
    switch (e.kind) {
      case 'number':
        return e.value;
      case 'unit':
        return e.unit.factor;
      case 'symbol':
        return names.column(e.name);
      case 'negative':
        return this.#unary(loops.negative, this.#operand(e.operand, names));
      case 'arithmetic':
        if (e.operator === '*') return this.#product(factorsOf(e).map((factor) => this.#operand(factor, names)));
        return this.#arithmetic(e.operator, this.#operand(e.left, names), this.#operand(e.right, names));
      case 'call':
        return this.#call(e, names);
      case 'comparison':
        return this.#binary(loops.comparison(e.operator), this.#operand(e.left, names), this.#operand(e.right, names));
      case 'and':
        return this.#choice(this.#operand(e.left, names), () => this.#operand(e.right, names), () => 0);
      case 'or':
        return this.#choice(this.#operand(e.left, names), () => 1, () => this.#operand(e.right, names));
      case 'not':
        return this.#choice(this.#operand(e.operand, names), () => 0, () => 1);
    }
  }

  #arithmetic(operator: '+' | '-' | '*' | '/' | '^', a: Operand, b: Operand): Operand {
    if (operator === '*' && typeof b === 'number' && typeof a !== 'number') return this.#unary(loops.multiplyBy(b), a);
    if (operator === '/' && typeof b === 'number' && typeof a !== 'number' && isPowerOfTwo(b)) return this.#unary(loops.multiplyBy(1 / b), a);
    if (operator !== '^') return this.#binary(loops.ARITHMETIC[operator], a, b);
    if (typeof b === 'number') return this.#unary(loops.powerOf(b), a);
    return typeof a === 'number' && a > 0 ? this.#unary(loops.powersFrom(a), b) : this.#binary(loops.power, a, b);
  }

  /** Shared factors are multiplied with each other first: one pass for all of them, none where they make 1. */
  #product(factors: readonly Operand[]): Operand {
    const shared = factors.filter((factor) => typeof factor === 'number');
    const moving = factors.filter((factor) => typeof factor !== 'number');
    const together = shared.reduce((product, factor) => product * factor, 1);
    // Beyond the range of a double the order of the factors decides whether there is a value.
    const isSafe = moving.length > 0 && Number.isFinite(together) && (together !== 0 || shared.includes(0));
    const ordered: readonly Operand[] = isSafe ? [...moving, ...(together === 1 ? [] : [together])] : factors;
    return ordered.reduce((product, factor) => this.#arithmetic('*', product, factor));
  }

  #call({ name, arguments: parts }: Call, names: BlockNames): Operand {
    const [first, second, third] = parts;
    if (first === undefined) throw new Error(`${name} lacks its argument.`);
    const all = (): Operand[] => parts.map((part) => this.#operand(part, names));
    switch (name) {
      case 'u':
        return first.kind === 'symbol' ? names.standardUncertainty(first.name) : Number.NaN;
      case 'best':
        return first.kind === 'symbol' ? names.best(first.name) : Number.NaN;
      case 'if':
        if (second === undefined || third === undefined) throw new Error('if lacks a branch.');
        return this.#choice(this.#operand(first, names), () => this.#operand(second, names), () => this.#operand(third, names));
      case 'min':
        return all().reduce((best, part) => this.#binary(loops.smaller, best, part));
      case 'max':
        return all().reduce((best, part) => this.#binary(loops.larger, best, part));
      case 'mean':
        return this.#arithmetic('/', all().reduce((sum, part) => this.#arithmetic('+', sum, part)), parts.length);
      default: {
        const several = loops.severalLoop(name);
        return several === undefined ? this.#unary(loops.functionLoop(name), this.#operand(first, names)) : this.#several(several, all());
      }
    }
  }

  #unary(loop: loops.Unary, a: Operand): Operand {
    return this.#several((out, [first], count) => loop(out, first as Block, count), [a]);
  }

  #binary(loop: loops.Binary, a: Operand, b: Operand): Operand {
    return this.#several((out, [first, second], count) => loop(out, first as Block, second as Block, count), [a, b]);
  }

  #several(loop: loops.Several, operands: readonly Operand[]): Operand {
    if (operands.every((operand) => typeof operand === 'number')) {
      const out = new Float64Array(1);
      loop(out, operands.map((operand) => Float64Array.of(operand)), 1);
      return out[0] as number;
    }
    const blocks = operands.map((operand) => this.#block(operand));
    const out = this.#target(blocks);
    this.#operations.push((count) => loop(out, blocks, count));
    return out;
  }

  /** Both branches for all places, then each place's own; a condition with one answer for the whole block spares the other branch. */
  #choice(condition: Operand, whereHolds: () => Operand, elsewhere: () => Operand): Operand {
    if (typeof condition === 'number') return condition === 1 ? whereHolds() : condition === 0 ? elsewhere() : Number.NaN;
    const [holding, yes] = this.#apart(whereHolds);
    const [failing, no] = this.#apart(elsewhere);
    const [a, b] = [this.#block(yes), this.#block(no)];
    const out = this.#target([condition, a, b]);
    this.#operations.push((count) => {
      const answer = loops.sharedAnswer(condition, count);
      if (answer !== 0) for (const operation of holding) operation(count);
      if (answer !== 1) for (const operation of failing) operation(count);
      if (answer === undefined) loops.chosen(out, [condition, a, b], count);
      else out.set(answer === 1 ? a : b);
    });
    return out;
  }

  /** What is added meanwhile, on a list of its own. */
  #apart(add: () => Operand): readonly [Operation[], Operand] {
    const [outside, found] = [this.#operations, this.#found];
    this.#operations = [];
    const operand = add();
    const own = this.#operations;
    this.#operations = outside;
    // What is found in a branch is there only where the branch is worked out.
    this.#found = found;
    return [own, operand];
  }

  #block(operand: Operand): Block {
    if (typeof operand !== 'number') return operand;
    const known = this.#constants.get(operand) ?? this.column().fill(operand);
    this.#constants.set(operand, known);
    return known;
  }

  /** A buffer for the result of an operation: an operand that is temporary, all of which are used up by it, else a spare one. */
  #target(operands: readonly Block[]): Block {
    const free = [...new Set(operands)].filter((operand) => this.#temporary.has(operand));
    const target = free.pop() ?? this.#spare.pop() ?? this.column();
    this.#spare.push(...free);
    this.#temporary.add(target);
    return target;
  }
}

/** Whether dividing by it and multiplying by its reciprocal are the same to the last bit. */
function isPowerOfTwo(value: number): boolean {
  const exponent = Math.log2(value);
  return Number.isInteger(exponent) && Math.abs(exponent) < 1000 && 2 ** exponent === value;
}

/** The factors of a product, from left to right, those of products among them in their place. */
function factorsOf(e: Expression): readonly Expression[] {
  return e.kind === 'arithmetic' && e.operator === '*' ? [...factorsOf(e.left), ...factorsOf(e.right)] : [e];
}

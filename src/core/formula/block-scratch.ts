/** Draws at a time: few enough that the buffers of one formula stay in the processor's cache. */
export const BLOCK = 1024;

/**
 * Buffers for intermediate results. An operation writes into an operand that is scratch, else into a spare buffer; the
 * columns handed in by a caller are never written to.
 */
export class Scratch {
  readonly #spare: Float64Array[] = [];
  readonly #own = new Set<Float64Array>();

  /** A buffer for the result of an operation on `operands`, of which those that are scratch are used up. */
  target(operands: readonly Float64Array[]): Float64Array {
    let target: Float64Array | undefined;
    for (const operand of operands) {
      if (!this.#own.has(operand)) continue;
      if (target === undefined) target = operand;
      else this.#spare.push(operand);
    }
    return target ?? this.#spare.pop() ?? this.#fresh();
  }

  /** Gives back a result that has been read; a column is nobody's to give. */
  release(draws: Float64Array): void {
    if (this.#own.has(draws)) this.#spare.push(draws);
  }

  #fresh(): Float64Array {
    const fresh = new Float64Array(BLOCK);
    this.#own.add(fresh);
    return fresh;
  }
}

/**
 * The part of `@observablehq/runtime` 6.0.1 that this project uses; the package ships no types.
 * The version is pinned exactly: the order of `pending` and `fulfilled`, the handling of duplicates and the members
 * marked private below are observed behaviour, not a documented interface.
 */
declare module '@observablehq/runtime' {
  export interface Observer {
    /** Called at once for every variable that an edit will recompute. */
    pending?(): void;
    /** The last call for a deleted variable is `fulfilled(undefined, null)`. */
    fulfilled?(value: unknown, name: string | null): void;
    rejected?(error: unknown, name: string | null): void;
  }

  export class RuntimeError extends Error {
    /** Name of the direct input that failed, where the failure came from an input. */
    readonly input: string | undefined;
  }

  export class Runtime {
    /** `global` resolves names that no variable defines; without it they would resolve to properties of the window. */
    constructor(builtins?: Readonly<Record<string, unknown>>, global?: (name: string) => unknown);
    module(): Module;
    dispose(): void;
    /** Private: replaces the animation frame that starts a pass. */
    _computeSoon: () => Promise<void>;
    /** Private: one pass over all that is out of date. */
    readonly _computeNow: () => Promise<void>;
  }

  export class Module {
    /** A new variable without a definition. It is computed only if it, or one that reads it, has an observer. */
    variable(observer?: Observer | boolean): Variable;
    define(name: string | null, inputs: readonly string[], definition: unknown): Variable;
    redefine(name: string, inputs: readonly string[], definition: unknown): Variable;
    /** Computes the variable, observed or not; rejects with its error. */
    value(name: string): Promise<unknown>;
  }

  export class Variable {
    /** Names the variable, its inputs and how its value comes from theirs; a second call redefines it. */
    // The arguments of `definition` are the values of `inputs`, in their order.
    define(name: string | null, inputs: readonly string[], definition: unknown): Variable;
    delete(): Variable;
  }
}

/** Characters from `start` up to, not including, `end`, in the text the problem speaks of. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Problem {
  /** Stable short name, kebab case, for tests and help: `unit-unknown`. */
  readonly code: string;
  /** One plain sentence that says what is wrong, with both sides where two things clash. */
  readonly what: string;
  /** One plain sentence that says what the reader can do now. */
  readonly mend: string;
  /** The text the span points into, where there is one. */
  readonly text?: string;
  readonly span?: Span;
  /** Id of the cell, and the key in its body, that the problem belongs to. */
  readonly cell?: string;
  readonly key?: string;
  /** Line of the file, counted from 1, for problems of the document's text. */
  readonly line?: number;
}

export type Result<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem };

/** How far an own result may be off and be right. */
export type Tolerance =
  /** Of the sheet's result: 0.01 for 1 %. */
  | { readonly kind: 'share'; readonly share: number }
  /** The same when rounded to so many significant figures: half a unit of the last of them. */
  | { readonly kind: 'figures'; readonly figures: number }
  /** So many standard uncertainties of the sheet's result. */
  | { readonly kind: 'uncertainties'; readonly times: number }
  /** So many times as large or as small. */
  | { readonly kind: 'factor'; readonly factor: number };

/** `at once`: each entry is judged. `at the end`: all are, once the reader hands in. */
export type Feedback = 'at once' | 'at the end';

/** Of what went wrong `all` that can be found is told, the slips that the sheet lists (`listed`), or `none`. */
export type Hints = 'all' | 'listed' | 'none';

/** What a step says of the reader's own result. */
export interface OwnResult {
  /** true: hidden until answered, always. false: never asked. Absent: asked when the sheet's own-working switch is on. */
  readonly asked?: boolean;
  /** The reader's own result, as typed. */
  readonly answer?: string;
  /** Wrong ones before it, as typed, with semicolons between. */
  readonly tried?: string;
  /** Whether the sheet's result has been shown for the answer that stands: it stays shown. */
  readonly isTold?: boolean;
  /** What holds for own results here, in place of what the head of the sheet says. */
  readonly tolerance?: Tolerance;
  readonly tries?: number;
  readonly answerUnit?: 'required' | 'optional';
  readonly hints?: Hints;
}

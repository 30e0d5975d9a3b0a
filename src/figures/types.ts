/** A drawing or chart as text. */
export interface Picture {
  /** One <svg> element with title and desc, class names only (drawings.css, charts.css). */
  readonly svg: string;
  /** The whole of it as one plain paragraph: its text alternative. */
  readonly description: string;
  /** A short sentence or two to stand under it. */
  readonly sentence: string;
  readonly viewBox: { readonly width: number; readonly height: number };
}

/**
 * One value made of a column's rows, which the sheet knows by a symbol; `count` is of the rows themselves. Slope and intercept are those of the straight
 * line of the column on another one, by least squares; `scatter` is the standard deviation about that line.
 */
export interface TableSymbol {
  readonly symbol: string;
  readonly of: 'sum' | 'mean' | 'min' | 'max' | 'count' | LineWord;
  /** Key of the column; '' for a count. */
  readonly column: string;
  /** Key of the column that a line is on; '' where there is none. */
  readonly on: string;
}

export type LineWord = 'slope' | 'intercept' | 'scatter';

/**
 * The k-th smallest of the values, k counted from 0; the values are left partly ordered: none before place k is larger,
 * none after it is smaller.
 * @param values no NaN among them; reordered in place
 * @param k whole, 0 ≤ k < values.length
 * @source Hoare's selection (1961), the pivot a median of three.
 */
export function orderStatistic(values: Float64Array, k: number): number {
  let left = 0;
  let right = values.length - 1;
  while (left < right) {
    const pivot = medianOfThree(at(values, left), at(values, (left + right) >>> 1), at(values, right));
    let i = left;
    let j = right;
    while (i <= j) {
      while (at(values, i) < pivot) i++;
      while (at(values, j) > pivot) j--;
      if (i > j) break;
      const kept = at(values, i);
      values[i++] = at(values, j);
      values[j--] = kept;
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return at(values, k);
}

function at(values: Float64Array, place: number): number {
  return values[place] ?? Number.NaN;
}

function medianOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

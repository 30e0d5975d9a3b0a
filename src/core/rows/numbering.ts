/** Numbers of the different values of a column, counted from 0 in order of first appearance. */
export interface Numbering {
  /** Of each key that was numbered, in their order. */
  readonly numbers: Uint32Array;
  readonly count: number;
}

/**
 * Numbers keys as a `Map` would tell them apart (NaN is itself, −0 is 0), in a table of our own: a `Map` takes ten times as long over long columns whose
 * values are all different.
 */
export function numberKeys(keys: Float64Array): Numbering {
  const size = 2 ** Math.ceil(Math.log2(2 * keys.length + 2));
  const mask = size - 1;
  // Two words a slot: one more than the number of the key that lies there, 0 where none does, and the key's hash, which spares most looks at keys far off.
  const slots = new Uint32Array(2 * size);
  const found = new Float64Array(keys.length);
  const numbers = new Uint32Array(keys.length);
  const own = new Float64Array(1);
  const words = new Uint32Array(own.buffer);
  let count = 0;
  for (let i = 0; i < keys.length; i++) {
    const given = keys[i] as number;
    const key = Number.isNaN(given) ? Number.NaN : given + 0;
    own[0] = key;
    let hash = Math.imul((words[0] as number) ^ Math.imul(words[1] as number, 0x85ebca6b), 0x9e3779b1);
    hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
    hash = (hash ^ (hash >>> 13)) >>> 0;
    let slot = hash & mask;
    for (;;) {
      const number = slots[2 * slot] as number;
      if (number === 0) {
        found[count] = key;
        slots[2 * slot] = ++count;
        slots[2 * slot + 1] = hash;
        numbers[i] = count - 1;
        break;
      }
      if (slots[2 * slot + 1] === hash && isSame(found[number - 1] as number, key)) {
        numbers[i] = number - 1;
        break;
      }
      slot = (slot + 1) & mask;
    }
  }
  return { numbers, count };
}

function isSame(a: number, b: number): boolean {
  return a === b || (Number.isNaN(a) && Number.isNaN(b));
}

/** Numbers values of any kind. */
export function numberValues(values: Float64Array | readonly unknown[]): Numbering {
  if (values instanceof Float64Array) return numberKeys(values);
  const known = new Map<unknown, number>();
  const numbers = new Uint32Array(values.length);
  for (const [i, value] of values.entries()) {
    const code = known.get(value) ?? known.size;
    known.set(value, code);
    numbers[i] = code;
  }
  return { numbers, count: known.size };
}

/** Of each group of a numbered column: the place of its first row, how many rows it has, their mean, and their squares about it. */
export interface Moments {
  readonly first: Uint32Array;
  readonly count: Float64Array;
  readonly mean: Float64Array;
  readonly squares: Float64Array;
}

/** @source mean and squares value by value: Welford, Technometrics 4 (1962) 419. */
export function momentsOf({ numbers, count: groups }: Numbering, column: Float64Array): Moments {
  const first = new Uint32Array(groups);
  const [count, mean, squares] = [new Float64Array(groups), new Float64Array(groups), new Float64Array(groups)];
  for (let i = 0; i < numbers.length; i++) {
    const group = numbers[i] as number;
    const value = column[i] as number;
    const rows = (count[group] as number) + 1;
    if (rows === 1) first[group] = i;
    count[group] = rows;
    const from = value - (mean[group] as number);
    mean[group] = (mean[group] as number) + from / rows;
    squares[group] = (squares[group] as number) + from * (value - (mean[group] as number));
  }
  return { first, count, mean, squares };
}

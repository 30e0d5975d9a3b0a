/** Pieces of a minified text with the source that each comes from, read from its map (version 3, ECMA-426). */
interface Piece {
  /** Undefined where the map names none. */
  readonly source: string | undefined;
  readonly text: string;
}

interface MapOfSources {
  readonly mappings: string;
  readonly sources: readonly (string | null)[];
}

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Numbers of one segment: six bits a sign, of which one says whether more follow, and the last bit of a number is its sign. */
function numbersOf(segment: string): readonly number[] {
  const numbers: number[] = [];
  let [value, shift] = [0, 0];
  for (const sign of segment) {
    const digit = DIGITS.indexOf(sign);
    value += (digit & 31) * 2 ** shift;
    shift += 5;
    if (digit >= 32) continue;
    numbers.push(value % 2 === 1 ? -(value - 1) / 2 : value / 2);
    [value, shift] = [0, 0];
  }
  return numbers;
}

export function* piecesOf(code: string, { mappings, sources }: MapOfSources): Generator<Piece> {
  const lines = code.split('\n');
  let [index, source] = [0, undefined as string | undefined];
  for (const [at, segments] of mappings.split(';').entries()) {
    const line = lines[at] ?? '';
    let [column, from] = [0, 0];
    for (const segment of segments.split(',').filter((each) => each !== '')) {
      const [columns = 0, further] = numbersOf(segment);
      column += columns;
      yield { source, text: line.slice(from, column) };
      from = column;
      if (further !== undefined) index += further;
      source = further === undefined ? undefined : sources[index] ?? undefined;
    }
    yield { source, text: `${line.slice(from)}\n` };
  }
}

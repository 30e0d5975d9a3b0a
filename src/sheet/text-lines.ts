/** Lines of a text, each with its own line end: LF, CRLF or a lone CR. Joined they are the text again. */
export function splitLines(text: string): string[] {
  return text.match(/[^\r\n]*(?:\r\n|\n|\r)|[^\r\n]+$/g) ?? [];
}

/** The line without its line end. */
export function lineText(line: string): string {
  return line.replace(/[\r\n]+$/, '');
}

/** The row, counted from 0, on which an offset lies. */
export function rowAt(text: string, offset: number): number {
  return rowFinder(text)(offset);
}

/** `rowAt` for many offsets of one text. */
export function rowFinder(text: string): (offset: number) => number {
  const ends: number[] = [];
  for (const match of text.matchAll(/\r\n|\n|\r/g)) ends.push(match.index + match[0].length);
  return (offset) => {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((ends[middle] ?? Infinity) <= offset) low = middle + 1;
      else high = middle;
    }
    return low;
  };
}

/** Offset of the first character of the line that holds an offset. */
export function lineStart(text: string, offset: number): number {
  let start = offset;
  while (start > 0 && !isLineEnd(text.charCodeAt(start - 1))) start--;
  return start;
}

/** Offset of the line end of the line that holds an offset (of the end of the text where there is none). */
export function lineStop(text: string, offset: number): number {
  let stop = offset;
  while (stop < text.length && !isLineEnd(text.charCodeAt(stop))) stop++;
  return stop;
}

/** Offset just after the line end of the line that holds an offset. */
export function nextLine(text: string, offset: number): number {
  const stop = lineStop(text, offset);
  return text.startsWith('\r\n', stop) ? stop + 2 : Math.min(stop + 1, text.length);
}

export function endsLine(text: string): boolean {
  return text === '' || isLineEnd(text.charCodeAt(text.length - 1));
}

function isLineEnd(code: number): boolean {
  return code === 10 || code === 13;
}

/** The line end a text uses first; LF where it has none. */
export function lineEndOf(text: string): string {
  return /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';
}

/**
 * `next` with the line ends of the file it goes into: lines that stand unchanged at the start or the end of `previous`
 * keep theirs byte for byte, all others get `lineEnd`. What an input hands over has LF only, whatever the file has.
 */
export function adoptLineEnds(previous: string, next: string, lineEnd: string): string {
  const old = splitLines(previous);
  const lines = splitLines(next);
  const same = (a: string | undefined, b: string | undefined): boolean =>
    a !== undefined && b !== undefined && lineText(a) === lineText(b) && hasEnd(a) === hasEnd(b);
  const shared = Math.min(old.length, lines.length);
  let head = 0;
  while (head < shared && same(old[head], lines[head])) head++;
  let tail = 0;
  while (tail < shared - head && same(old.at(-1 - tail), lines.at(-1 - tail))) tail++;
  const middle = lines.slice(head, lines.length - tail).map((line) => (hasEnd(line) ? lineText(line) + lineEnd : line));
  return [...old.slice(0, head), ...middle, ...old.slice(old.length - tail)].join('');
}

function hasEnd(line: string): boolean {
  return isLineEnd(line.charCodeAt(line.length - 1));
}

/**
 * An equation in lines that fit on paper. LaTeX ends no line of a display by itself: lines end before a sign of an operation, then between
 * factors; where these stand inside brackets or a fraction, the brackets get a fixed size and the fraction several lines. What holds no
 * place to end a line stays as it is.
 */
import { texWidth } from './tex-width.ts';

type Piece =
  | { readonly kind: 'plain' | 'sign'; readonly tex: string }
  | { readonly kind: 'root'; readonly inner: string }
  | { readonly kind: 'fraction'; readonly above: string; readonly below: string }
  | { readonly kind: 'brackets'; readonly open: string; readonly inner: string; readonly close: string; readonly behind: string }
  | { readonly kind: 'cases'; readonly rows: readonly string[]; readonly open: string; readonly close: string };

const SIGNS = new Set(['=', '+', '-', '<', '>', '\\le', '\\ge', '\\approx']);
/** Before a line that goes on. */
const GOES_ON = '\\quad {}';
const NARROWEST = 8;

/** @param room width of a line, em */
export function texLines(tex: string, room: number): readonly string[] {
  if (texWidth(tex) <= room || room < NARROWEST) return [tex];
  const lines: string[] = [];
  let line = '';
  for (const term of termsOf(piecesOf(tex))) {
    const whole = texOf(term);
    if (line === '' || texWidth(line + whole) <= room) line += whole;
    else {
      lines.push(line);
      line = `${GOES_ON}${whole}`;
    }
    if (texWidth(line) <= room) continue;
    const broken = withinTerm(line.startsWith(GOES_ON) ? [{ kind: 'plain', tex: GOES_ON }, ...term] : piecesOf(line), room);
    lines.push(...broken.slice(0, -1));
    line = broken.at(-1) ?? '';
  }
  return [...lines, line];
}

/** A term with its sign before it. */
function termsOf(pieces: readonly Piece[]): readonly (readonly Piece[])[] {
  const terms: Piece[][] = [[]];
  let isBegun = false;
  for (const piece of pieces) {
    // A sign at the beginning, or behind another, is the number's own.
    if (piece.kind === 'sign' && isBegun) {
      terms.push([piece]);
      isBegun = false;
      continue;
    }
    terms.at(-1)?.push(piece);
    isBegun ||= piece.kind !== 'sign' && texOf([piece]).trim() !== '';
  }
  return terms;
}

/** A term is too wide by itself: a line ends between its factors, or inside the one that is too wide. */
function withinTerm(term: readonly Piece[], room: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const piece of term) {
    const tex = texOf([piece]);
    if (texWidth(line + tex) <= room) {
      line += tex;
      continue;
    }
    const parts = insidePiece(piece, room, texWidth(line));
    const first = parts[0] ?? '';
    if (texWidth(line + first) > room && line.trim() !== '' && line !== GOES_ON && piece.kind !== 'plain') {
      lines.push(line.replace(/\\[,:;]$/u, ''));
      line = `${GOES_ON}\\cdot `;
    }
    line += first;
    for (const part of parts.slice(1)) {
      lines.push(line);
      line = `${GOES_ON}${part}`;
    }
  }
  return [...lines, line];
}

/** The lines of one piece that is too wide. @param before what its first line begins behind, em */
function insidePiece(piece: Piece, room: number, before: number): readonly string[] {
  switch (piece.kind) {
    case 'plain': case 'sign': return [piece.tex];
    case 'root': return [`\\sqrt{${gathered(piece.inner, room - Math.min(before, room / 2) - 1)}}`];
    case 'fraction': {
      const inner = room - (before < room / 2 ? before : 0) - 1;
      return [`\\frac{${gathered(piece.above, inner)}}{${gathered(piece.below, inner)}}`];
    }
    case 'brackets': {
      const lines = texLines(piece.inner, room - Math.min(before, room / 2) - 3);
      if (lines.length === 1) return [texOf([piece])];
      const last = lines.length - 1;
      return lines.map((line, i) => `${i === 0 ? `\\Bigl${piece.open} ` : ''}${line.replace(/^\\quad \{\}/u, '')}${i === last ? `\\Bigr${piece.close}${piece.behind}` : ''}`);
    }
    case 'cases': return [casesIn(piece, room - Math.min(before, room / 2) - 3)];
  }
}

function gathered(tex: string, room: number): string {
  const lines = texLines(tex, room);
  return lines.length === 1 ? tex : `\\begin{gathered} ${lines.map((line) => line.replace(/^\\quad /u, '')).join(' \\\\ ')} \\end{gathered}`;
}

/** Each condition below its expression, where both do not fit on a line. */
function casesIn({ rows, open, close }: Piece & { readonly kind: 'cases' }, room: number): string {
  const lines = rows.flatMap((row) => {
    const [value = '', condition = ''] = splitAt(row, '&');
    const broken = texLines(value.trim(), room);
    const said = condition.trim();
    return texWidth(`${value}${said}`) + 1 <= room ? [`${value.trim()}\\quad ${said}`] : [...broken, ...(said === '' ? [] : texLines(said, room - 1).map((line) => `\\quad ${line}`))];
  });
  return `${open}\\begin{cases} ${lines.join(' \\\\ ')} \\end{cases}${close}`;
}

function texOf(pieces: readonly Piece[]): string {
  return pieces.map((piece) => {
    switch (piece.kind) {
      case 'plain': case 'sign': return piece.tex;
      case 'root': return `\\sqrt{${piece.inner}}`;
      case 'fraction': return `\\frac{${piece.above}}{${piece.below}}`;
      case 'brackets': return `\\left${piece.open} ${piece.inner}\\right${piece.close}${piece.behind}`;
      case 'cases': return `${piece.open}\\begin{cases}${piece.rows.join('\\\\')}\\end{cases}${piece.close}`;
    }
  }).join('');
}

function tokensOf(tex: string): readonly string[] {
  return tex.match(/\\[a-zA-Z]+ ?|\\[\s\S]|[\s\S]/gu) ?? [];
}

/** What stands side by side at the top of a formula; what belongs to a letter (a power, an argument) stays with it. */
function piecesOf(tex: string): readonly Piece[] {
  const tokens = tokensOf(tex);
  const pieces: Piece[] = [];
  const state = { at: 0 };
  const argument = (): string => (tokens[state.at] === '{' ? group(tokens, state, '{', '}') : (tokens[state.at++] ?? ''));
  const raised = (): string => {
    let behind = '';
    while (tokens[state.at] === '^' || tokens[state.at] === '_') {
      behind += tokens[state.at++] ?? '';
      behind += `{${argument()}}`;
    }
    return behind;
  };
  let plain = '';
  const flush = (): void => {
    if (plain !== '') pieces.push({ kind: 'plain', tex: plain });
    plain = '';
  };
  while (state.at < tokens.length) {
    const token = tokens[state.at] ?? '';
    const name = token.trim();
    if (SIGNS.has(name)) {
      flush();
      pieces.push({ kind: 'sign', tex: token });
      state.at += 1;
    } else if (name === '\\frac') {
      flush();
      state.at += 1;
      const [above, below] = [argument(), argument()];
      const behind = raised();
      pieces.push({ kind: 'fraction', above, below }, ...(behind === '' ? [] : [{ kind: 'plain', tex: behind } as const]));
    } else if (name === '\\sqrt') {
      flush();
      state.at += 1;
      pieces.push({ kind: 'root', inner: argument() });
    } else if (name === '\\left') {
      flush();
      pieces.push(brackets(tokens, state, raised));
    } else if (name === '\\begin') {
      flush();
      pieces.push({ kind: 'cases', rows: environment(tokens, state), open: '', close: '' });
    } else if (token === '{') plain += `{${group(tokens, state, '{', '}')}}`;
    else {
      plain += token;
      state.at += 1;
      if (name === '\\,' || name === '\\cdot') flush();
    }
  }
  flush();
  return pieces;
}

interface Place {
  at: number;
}

/** Up to the closing token, without either. */
function group(tokens: readonly string[], state: Place, open: string, close: string): string {
  let depth = 0;
  const from = state.at;
  for (; state.at < tokens.length; state.at += 1) {
    const token = tokens[state.at]?.trim();
    if (token === open) depth += 1;
    else if (token === close && (depth -= 1) === 0) break;
  }
  const inner = tokens.slice(from + 1, state.at).join('');
  state.at += 1;
  return inner;
}

function brackets(tokens: readonly string[], state: Place, raised: () => string): Piece {
  const open = bracketAfter(tokens, state.at);
  const from = state.at;
  group(tokens, state, '\\left', '\\right');
  const inside = tokens.slice(from + 1, state.at - 1).join('').replace(/^\s*/u, '').slice(open.length);
  const close = bracketAfter(tokens, state.at - 1);
  state.at += close.startsWith('\\') || close.length === 1 ? 1 : close.length;
  const behind = raised();
  const inner = inside.trim();
  const [only, ...others] = inner.startsWith('\\begin') ? piecesOf(inner) : [];
  if (only?.kind === 'cases' && others.length === 0) return { ...only, open: `\\left${open} `, close: `\\right${close}${behind}` };
  return { kind: 'brackets', open, inner, close, behind };
}

function bracketAfter(tokens: readonly string[], at: number): string {
  return (tokens[at + 1] ?? '').trim();
}

/** The rows of `cases`. */
function environment(tokens: readonly string[], state: Place): readonly string[] {
  const from = state.at;
  const whole = group(tokens, state, '\\begin', '\\end');
  const name = tokens.slice(state.at).join('').match(/^\{[a-z]*\}/u)?.[0] ?? '';
  state.at = Math.max(state.at, from) + name.length;
  return splitAt(whole.replace(/^\s*\{[a-z]*\}/u, ''), '\\\\');
}

/** Cut at a token that stands in no braces, brackets or inner rows. */
function splitAt(tex: string, token: string): readonly string[] {
  const parts: string[] = [''];
  let depth = 0;
  for (const one of tokensOf(tex)) {
    const name = one.trim();
    if (name === '{' || name === '\\left' || name === '\\begin') depth += 1;
    if (name === '}' || name === '\\right' || name === '\\end') depth -= 1;
    if (depth === 0 && name === token) parts.push('');
    else parts[parts.length - 1] += one;
  }
  return parts;
}

/**
 * What signs of direction do to a text, by the rules X1 to X8 of Unicode Standard Annex 9 (The Unicode Bidirectional Algorithm): a model
 * of its own, of which the page knows nothing. And texts that try to turn what stands beside them.
 */

const DEEPEST = 125;

interface Standing {
  readonly character: string;
  /** Odd where it runs from right to left. */
  readonly level: number;
  /** Whatever it is by itself, it is read as one that runs this way. */
  readonly override: '' | 'L' | 'R';
}

type Status = Pick<Standing, 'level' | 'override'> & { readonly isIsolate: boolean };

const FROM_THE_RIGHT = /[\u05d0-\u05ea\u0620-\u064a\u200f\u061c]/u;
const FROM_THE_LEFT = /[\u200e\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}]/u;
const NEW_PARAGRAPH = /[\n\r\u001c-\u001e\u0085\u2029]/u;

/** Each character of a text that stands in a line from left to right, with the level and override that the signs before it leave it. */
export function standings(text: string): readonly Standing[] {
  const characters = [...text];
  const found: Standing[] = [];
  let stack: Status[] = [{ level: 0, override: '', isIsolate: false }];
  let [overflowIsolates, overflowEmbeddings, validIsolates] = [0, 0, 0];
  const push = (isRight: boolean, override: Status['override'], isIsolate: boolean): void => {
    const { level } = stack.at(-1) as Status;
    const next = isRight ? level + 1 + (level % 2) : level + 2 - (level % 2);
    if (next <= DEEPEST && overflowIsolates === 0 && overflowEmbeddings === 0) {
      stack.push({ level: next, override, isIsolate });
      if (isIsolate) validIsolates += 1;
    } else if (isIsolate) overflowIsolates += 1;
    else if (overflowIsolates === 0) overflowEmbeddings += 1;
  };
  for (const [i, character] of characters.entries()) {
    const { level, override } = stack.at(-1) as Status;
    switch (character) {
      case '\u202a': push(false, '', false); break;
      case '\u202b': push(true, '', false); break;
      case '\u202d': push(false, 'L', false); break;
      case '\u202e': push(true, 'R', false); break;
      case '\u2066': push(false, '', true); break;
      case '\u2067': push(true, '', true); break;
      case '\u2068': push(beginsFromTheRight(characters.slice(i + 1)), '', true); break;
      case '\u2069':
        if (overflowIsolates > 0) overflowIsolates -= 1;
        else if (validIsolates > 0) {
          overflowEmbeddings = 0;
          while (stack.pop()?.isIsolate === false);
          validIsolates -= 1;
        }
        break;
      case '\u202c':
        if (overflowIsolates > 0) break;
        if (overflowEmbeddings > 0) overflowEmbeddings -= 1;
        else if (stack.length > 1 && stack.at(-1)?.isIsolate === false) stack.pop();
        break;
      default:
        if (NEW_PARAGRAPH.test(character)) {
          stack = stack.slice(0, 1);
          [overflowIsolates, overflowEmbeddings, validIsolates] = [0, 0, 0];
        } else found.push({ character, level, override });
    }
  }
  return found;
}

/** P2 and P3: by the first letter with a direction, those in inner isolates left out, up to the isolate's end. */
function beginsFromTheRight(behind: readonly string[]): boolean {
  let depth = 0;
  for (const character of behind) {
    if (NEW_PARAGRAPH.test(character)) return false;
    if (/[\u2066-\u2068]/u.test(character)) depth += 1;
    else if (character === '\u2069' && --depth < 0) return false;
    else if (depth === 0 && FROM_THE_RIGHT.test(character)) return true;
    else if (depth === 0 && FROM_THE_LEFT.test(character)) return false;
  }
  return false;
}

/** Words in Latin letters and digits that do not run from left to right any more. */
export function turnedWords(text: string): readonly string[] {
  const letters = standings(text).map(({ character, level, override }) => (/[A-Za-z0-9]/.test(character) && (level % 2 === 1 || override === 'R') ? character : ' '));
  return letters.join('').split(/ +/).filter((word) => word !== '');
}

/** Each tries to turn what stands beside it, in another way; what can be seen of it is no Latin letter and no digit. */
export const HOSTILE: readonly string[] = [
  'ж\u202eю', '\u202eжю', 'ж\u202bю', 'ж\u2067ю', 'жю\u2069\u202eя', 'ж\u202a\u202d\u202eю', 'ж\u2029\u202eю', 'ж\u0085\u202eю', 'ж”\u202eю', 'ж“ю\u202e', '\u2066\u2066ж\u2069\u202eю', 'ж\u202eю\u202c\u202c\u202e', 'ж`\u202eю', 'ж\u001d\u202eю',
  'ж\u2069\u2069\u2069\u2067ю', 'ж’\u202eю',
];

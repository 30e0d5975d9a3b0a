/** Where the insertions of a template stand. */

export interface Place {
  readonly isBetweenTags: boolean;
  /** How symbols among the words look there: as in the equations; as plain text, where there can be no tags; as they are typed, in code and fields. */
  readonly symbols: 'shown' | 'plain' | 'typed';
}

/** By the fixed parts of a template. */
const known = new WeakMap<TemplateStringsArray, readonly Place[]>();

/** Elements whose text is what somebody types, or is typed that way. */
const TYPED = new Set(['code', 'textarea', 'pre', 'kbd', 'style', 'script']);
const PLAIN = new Set(['option', 'title']);
/** Elements without content. */
const EMPTY = new Set(['input', 'br', 'hr', 'img', 'meta', 'link', 'path', 'wbr']);
/** Attributes that are read or heard. */
const READ = /(?:^|\s)(?:title|alt|aria-label|aria-description|aria-valuetext)=(?:"[^"]*|'[^']*|[^\s"']*)$/;

/** For each insertion of a template, which kind of place it stands in. */
export function placesOf(strings: TemplateStringsArray): readonly Place[] {
  let places = known.get(strings);
  if (places === undefined) known.set(strings, (places = findPlaces(strings)));
  return places;
}

function findPlaces(strings: readonly string[]): readonly Place[] {
  const open: string[] = [];
  let [tag, quote, isInTag] = ['', '', false];
  const step = (sign: string): void => {
    if (!isInTag) {
      isInTag = sign === '<';
      tag = '';
    } else if (quote === '' && sign === '>') {
      isInTag = false;
      enter(tag, open);
    } else {
      if (quote !== '') quote = sign === quote ? '' : quote;
      else if (sign === '"' || sign === "'") quote = sign;
      tag += sign;
    }
  };
  return strings.map((part) => {
    for (const sign of part) step(sign);
    if (isInTag) return { isBetweenTags: false, symbols: READ.test(tag) ? 'plain' : 'typed' };
    if (open.some((name) => TYPED.has(name))) return { isBetweenTags: true, symbols: 'typed' };
    return { isBetweenTags: true, symbols: open.some((name) => PLAIN.has(name)) ? 'plain' : 'shown' };
  });
}

function enter(tag: string, open: string[]): void {
  const name = /^[\w-]+/.exec(tag)?.[0] ?? '';
  if (tag.startsWith('/')) open.pop();
  else if (name !== '' && !tag.endsWith('/') && !EMPTY.has(name)) open.push(name);
}

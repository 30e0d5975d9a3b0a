/**
 * What was worked out once is not worked out again.
 *
 * Nouns: a *key*, an object that never changes (a document, a block, states), by which a result is kept for as long as the key lives; or a text, of which the last so many are kept.
 * Invariant: whoever asks twice with one key gets the same object, so that what hangs on it can be told to be the same by identity.
 */

/** `work`, done once for each key. It may hang on nothing else. */
export function remembered<Key extends object, Value>(work: (key: Key) => Value): (key: Key) => Value {
  const known = new WeakMap<Key, { readonly value: Value }>();
  return (key) => {
    let kept = known.get(key);
    if (kept === undefined) known.set(key, (kept = { value: work(key) }));
    return kept.value;
  };
}

/** The same for each key and name. */
export function rememberedByName<Key extends object, Name extends string, Value>(work: (key: Key, name: Name) => Value): (key: Key, name: Name) => Value {
  const named = remembered((_key: Key) => new Map<Name, { readonly value: Value }>());
  return (key, name) => {
    const known = named(key);
    let kept = known.get(name);
    if (kept === undefined) known.set(name, (kept = { value: work(key, name) }));
    return kept.value;
  };
}

/** `work`, done once for each text, of which the last `most` are kept: the one that came first gives way. It may hang on nothing else. */
export function rememberedTexts<Value>(most: number, work: (text: string) => Value): (text: string) => Value {
  const known = new Map<string, { readonly value: Value }>();
  return (text) => {
    let kept = known.get(text);
    if (kept === undefined) {
      kept = { value: work(text) };
      const first = known.keys().next();
      if (known.size >= most && first.done === false) known.delete(first.value);
      known.set(text, kept);
    }
    return kept.value;
  };
}

/** The same, but a text of more than `longest` characters is worked on each time: what hangs on it may be large. */
export function rememberedShortTexts<Value>(most: number, longest: number, work: (text: string) => Value): (text: string) => Value {
  const kept = rememberedTexts(most, work);
  return (text) => (text.length > longest ? work(text) : kept(text));
}

/** What is made at the first asking, and kept: a way to compare or to write dates takes the browser milliseconds to make, and an opening may need none; what a fit says of single rows takes longer than the fit. */
export function whenAsked<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | undefined;
  return () => (made ??= { value: make() }).value;
}

export { broughtOnce } from './brought-once.ts';
export { atHand, type AtHand } from './at-hand.ts';

import { broughtOnce } from './brought-once.ts';

/**
 * What is a part of the page by itself, unpacked when it is first asked for, and is used at once wherever it is there already. In Node it is given before anything asks.
 */
export interface AtHand<Part> {
  /** Brings it; rejected where that part of the page is damaged or does not come, and tried again at the next asking. */
  readonly bring: () => Promise<Part>;
  readonly isThere: () => boolean;
  /** Where it is not there yet (`isThere`) that is a fault of whoever calls. */
  readonly use: () => Part;
  /** From now on it is this. */
  readonly give: (part: Part) => void;
}

/** @param what it is, for the fault of using it too early */
export function atHand<Part>(what: string, load: () => Promise<Part>): AtHand<Part> {
  let there: { readonly part: Part } | undefined;
  return {
    bring: broughtOnce(async () => (there ??= { part: await load() }).part),
    isThere: () => there !== undefined,
    use: () => {
      if (there === undefined) throw new Error(`${what} asked for before they are there`);
      return there.part;
    },
    give: (part) => void (there = { part }),
  };
}

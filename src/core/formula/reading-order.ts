/**
 * The roots and all that they are read from, each after those it reads; a loop is broken somewhere. With a stack of its own:
 * a chain may be as long as the sheet, and a call for each of its steps does not fit the call stack.
 * @param reads names that a name is read from directly, asked once of each
 * @param onLoop is told every loop that is broken, in order of reading
 */
export function inOrderOfReading(
  roots: Iterable<string>, reads: (name: string) => Iterable<string>, onLoop?: (loop: readonly string[]) => void,
): readonly string[] {
  const order: string[] = [];
  const met = new Map<string, 'open' | 'done'>();
  const path: { readonly name: string; readonly left: Iterator<string> }[] = [];
  const meet = (name: string): void => {
    if (met.get(name) === 'open') onLoop?.(path.slice(path.findIndex((on) => on.name === name)).map((on) => on.name));
    if (met.has(name)) return;
    met.set(name, 'open');
    path.push({ name, left: reads(name)[Symbol.iterator]() });
  };
  for (const root of roots) {
    meet(root);
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const next = top.left.next();
      if (next.done !== true) meet(next.value);
      else {
        path.pop();
        met.set(top.name, 'done');
        order.push(top.name);
      }
    }
  }
  return order;
}

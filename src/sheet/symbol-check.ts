const SYMBOL_NAME = /^[A-Za-z][A-Za-z0-9]*(_[A-Za-z0-9]+)*$/;

/** Whether a name has the form of a symbol. */
export function isSymbolName(name: string): boolean {
  return name.length <= 40 && SYMBOL_NAME.test(name);
}

/** As much of a syntax tree as is looked at here; where things stand in the text, in UTF-16 code units. */
export interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

/** The name that an identifier or a literal is. */
export function nameOf(node: unknown): string {
  const { name, value } = node as { readonly name?: string; readonly value?: string };
  return name ?? value ?? '';
}

/** Sees a node and all below it. What `see` gives as false is not gone into. */
export function walk(value: unknown, see: (node: Node) => boolean | void): void {
  if (Array.isArray(value)) for (const each of value) walk(each, see);
  else if (isNode(value) && see(value) !== false) for (const child of Object.values(value)) walk(child, see);
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';
}

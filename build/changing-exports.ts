import { parseAst } from 'vite';
import { nameOf, walk, type Node } from './syntax-tree.ts';

/**
 * What a part exports is given once: a name that changes afterwards would stay behind in those that took it. Gives what is wrong, in words.
 * @param code of a chunk before it is minified
 */
export function changingExports(fileName: string, code: string): readonly string[] {
  const { body } = parseAst(code) as unknown as { readonly body: readonly Node[] };
  const exported = new Set(body.flatMap((node) => (node.type === 'ExportNamedDeclaration' ? (node['specifiers'] as readonly Node[]).map((each) => nameOf(each['local'])) : [])));
  return exported.size === 0 ? [] : changed(body, exported).map((node) => `${fileName}: a name is exported and changes: ${code.slice(node.start, node.start + 60)}`);
}

/** Where one of the names is given something else, but in functions that have a name of their own like it. */
function changed(within: unknown, names: ReadonlySet<string>): readonly Node[] {
  const found: Node[] = [];
  walk(within, (node) => {
    if (node !== within && node.type.includes('Function')) {
      const own = declaredIn(node);
      const left = new Set([...names].filter((name) => !own.has(name)));
      if (left.size > 0) found.push(...changed({ ...node, type: 'Within' }, left));
      return false;
    }
    const target = node.type === 'AssignmentExpression' ? node['left'] : node.type === 'UpdateExpression' ? node['argument'] : undefined;
    if (target !== undefined) walk(target, (each) => (each.type === 'MemberExpression' ? false : void (each.type === 'Identifier' && names.has(nameOf(each)) && found.push(node))));
    return true;
  });
  return found;
}

/** Names that a function has of its own: its parameters and what it declares, not what functions in it do. */
function declaredIn(node: Node): ReadonlySet<string> {
  const names = new Set<string>();
  const take = (pattern: unknown): void => walk(pattern, (each) => void (each.type === 'Identifier' && names.add(nameOf(each))));
  take(node['params']);
  walk(node['body'], (each) => {
    if (each.type === 'VariableDeclarator') take(each['id']);
    if (/^(Function|Class)Declaration$/.test(each.type)) take(each['id']);
    return !each.type.includes('Function');
  });
  return names;
}

/** Chunks of the bundle made into parts of the page: what they take and give is what their own words say, whatever stands in texts and comments. */
import { expect, test } from 'vitest';
import { changingExports } from '../../build/changing-exports.ts';
import { partOf } from '../../build/parts.ts';

/** Runs parts as the page does, one after the other, in Node's own way of running a script. */
async function run(...chunks: readonly (readonly [string, string])[]): Promise<ReadonlyMap<string, unknown>> {
  const { runInNewContext } = await import('node:vm');
  const made = new Map<string, unknown>();
  const spanlife = Object.assign((name: string, needs: readonly string[], make: (...parts: readonly unknown[]) => unknown) => made.set(name, make(...needs.map((each) => made.get(each)))), {
    load: async (name: string) => made.get(name),
  });
  for (const [file, code] of chunks) runInNewContext(partOf(file, code).text, { spanlife });
  return made;
}

test('what a chunk imports comes from the part of that name, what it exports is given', async () => {
  const made = await run(
    ['main.js', 'const a=2,b="import{c}from\'./d.js\'";function f(){return a}export{f as t,b as default,a as "two words"};'],
    ['charts.js', 'import{t as n,"two words"as w}from"./main.js";import e from"./main.js";'.replace('import e from', 'import{default as e}from') + 'var o=n()*10+w;export{o,e};'],
  );
  expect(made.get('charts')).toEqual({ o: 22, e: "import{c}from'./d.js'" });
});

test('a part that is asked for comes by its name, however its address is written', async () => {
  const made = await run(
    ['late.js', 'export{x as y};var x=7;'],
    ['main.js', 'const one=()=>import(`./late.js`),two=()=>import("./late.js").then(({y})=>y+1);export{one,two};'],
  );
  const { one, two } = made.get('main') as { one: () => Promise<{ y: number }>; two: () => Promise<number> };
  expect([(await one()).y, await two()]).toEqual([7, 8]);
});

test.each([
  ['export*from"./main.js";', 'ExportAllDeclaration'],
  ['import*as a from"./main.js";a.b();', 'ImportNamespaceSpecifier'],
  ['export const a=1;', 'ExportNamedDeclaration'],
  ['console.log(import.meta.url);', 'import.meta'],
  ['import{a}from"katex";a();', 'no chunk of this bundle'],
])('what it can not carry over ends the build: %s', (code, said) => {
  expect(() => partOf('x.js', code)).toThrow(said);
});

test('an exported name that changes later is found, one that only sounds like it is not', () => {
  expect(changingExports('x.js', 'let a = 1; function f() { a = 2; } export { a, f };')).toHaveLength(1);
  expect(changingExports('x.js', 'let a = 1; const f = () => { [a] = [2]; a++; }; export { a, f };')).toHaveLength(2);
  expect(changingExports('x.js', 'const a = {}; function f(b) { let a = 1; a = b; a.c = 3; } function g(a) { a += 1; return () => { a = 2; }; } a.d = 4; export { a, f, g };')).toEqual([]);
});

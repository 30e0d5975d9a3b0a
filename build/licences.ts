import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { top } from './top.ts';

/** Name of an installed package with its owners, and the words of its licence without them. */
function licence(folder: string): { readonly owner: string; readonly words: string } {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Record<string, string>;
  const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
  if (file === undefined) throw new Error(`${folder} has no licence file`);
  const lines = readFileSync(join(folder, file), 'utf8').trim().replaceAll('*/', '* /').split(/\r?\n/);
  const isOwner = (line: string): boolean => /^\s*copyright\b.*\d{4}/i.test(line);
  const owner = [`${name} ${version}, ${license}`, ...lines.filter(isOwner).map((line) => line.trim())].join('\n');
  return { owner, words: lines.filter((line) => !isOwner(line)).join('\n').replace(/\n{3,}/g, '\n\n').trim() };
}

/** The licences of what is bundled ask to go with every copy: they stand in a comment at the head of the first script, equal ones once. @param modules files that are bundled */
export function licences(modules: readonly string[]): string {
  const packages = modules.flatMap((id) => /^\0?(.*\/node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(id.replaceAll('\\', '/'))?.[1] ?? []);
  const own = readFileSync(join(top, 'LICENSE'), 'utf8').trim();
  const groups = new Map<string, string[]>();
  for (const { owner, words } of [...new Set(packages)].sort().map(licence)) groups.set(words, [...(groups.get(words) ?? []), owner]);
  const texts = [`Spanlife\n\n${own}`, ...[...groups].map(([words, owners]) => `${owners.join('\n')}\n\n${words}`)];
  return `/*!\n${texts.join(`\n\n${'-'.repeat(72)}\n\n`)}\n*/`;
}

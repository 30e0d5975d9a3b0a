import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const top = fileURLToPath(new URL('../..', import.meta.url));

/** Folders of the order in which layers may import, first to last. */
export const layers = [
  'core/remembered',
  'core/problem',
  'core/numeric',
  'core/units',
  'core/estimate',
  'core/formula',
  'core/diagnosis',
  'core/mechanics',
  'core/rows',
  'core/fatigue',
  'sheet',
  'graph',
  'figures',
  'report',
  'returns',
  'view',
  'app',
] as const;

const ignored = readFileSync(join(top, '.gitignore'), 'utf8')
  .split('\n')
  .map((line) => line.trim().replace(/^\/|\/$/g, ''))
  .filter((line) => line !== '' && !line.startsWith('#'));

/**
 * Paths of the project's files, relative to the top with `/`: those that git tracks and those that it would. Without git
 * (an unpacked archive) every file but those .gitignore names.
 */
export function projectFiles(): readonly string[] {
  const listed = spawnSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', '-z'], { cwd: top, encoding: 'utf8' });
  if (listed.status === 0) return [...new Set(listed.stdout.split('\0'))].filter((path) => path !== '' && existsSync(join(top, path)));
  return walk('');
}

function walk(folder: string): string[] {
  return readdirSync(join(top, folder), { withFileTypes: true })
    .filter((entry) => !ignored.includes(entry.name) && entry.name !== '.git')
    .flatMap((entry) => (entry.isDirectory() ? walk(`${folder}${entry.name}/`) : [`${folder}${entry.name}`]));
}

export function read(path: string): string {
  return readFileSync(join(top, path), 'utf8');
}

/** `path:line: text` of every line that the pattern finds. */
export function findLines(paths: readonly string[], pattern: RegExp): string[] {
  return paths.flatMap((path) =>
    read(path)
      .split('\n')
      .flatMap((line, index) => (pattern.test(line) ? [`${path}:${index + 1}: ${line.trim().slice(0, 120)}`] : [])),
  );
}

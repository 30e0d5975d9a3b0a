/** What may stand in the repository at all. */
import { describe, expect, test } from 'vitest';
import { findLines, projectFiles, read } from './tracked.ts';

const files = projectFiles();
const isText = (path: string): boolean => !/\.(png|jpe?g|webp|gif|woff2?|ico|pdf|zip)$/.test(path);
const texts = files.filter(isText);

const topLevel = [
  'README.md', 'DEVELOPERS.md', 'LANGUAGE.md', 'LICENSE', 'package.json', 'package-lock.json', 'vite.config.ts', 'tsconfig.json',
  'worksheets', 'src', 'tests', 'data-demo',
  '.ci', '.scripts', '.pictures', '.oxlintrc.json', '.npmrc', '.gitignore',
];

describe('the repository', () => {
  test('has files at all', () => {
    expect(files.length).toBeGreaterThan(30);
    expect(files).toContain('package.json');
  });

  test('keeps its top level to the entries of the map', () => {
    const entries = new Set(files.map((path) => path.split('/')[0] ?? ''));
    expect([...entries].filter((entry) => !topLevel.includes(entry))).toEqual([]);
  });

  test('names no folder of somebody\'s machine', () => {
    const folders = ['work', 'root', 'farm', 'tmp', 'home', 'Users'];
    const pattern = new RegExp(`(?<![\\w.)}/-])/(${folders.join('|')})/[\\w.-]`);
    expect(pattern.test(`see ${'/ho'}me/ann/notes`) && pattern.test(`"${'/tm'}p/x"`)).toBe(true);
    expect(pattern.test('../work/x') || pattern.test('a/tmp/b')).toBe(false);
    expect(findLines(texts, pattern)).toEqual([]);
  });

  test('names no package registry', () => {
    const hosts = ['registry', 'npm', 'mirror', 'artifactory', 'nexus'].map((word) => `https?://[\\w.-]*\\b${word}`);
    const pattern = new RegExp(`${hosts.join('|')}|^\\s*(@[\\w-]+:)?registry\\s*=|"resolved"\\s*:`, 'i');
    expect(pattern.test(`${'regis'}try=x`) && pattern.test(`https:/${'/'}registry.example.org/x`)).toBe(true);
    expect(findLines(texts, pattern)).toEqual([]);
  });

  test('pins every direct dependency to one version', () => {
    const { dependencies, devDependencies, overrides } = JSON.parse(read('package.json')) as Record<string, Record<string, string>>;
    const versions = Object.entries({ ...dependencies, ...devDependencies, ...overrides });
    expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
  });

  test('has no test that is skipped, narrowed or left for later', () => {
    const tests = texts.filter((path) => /^tests\/.*\.ts$/.test(path) && !path.startsWith('tests/house/'));
    const pattern = /\b(it|test|describe|bench)\s*\.\s*(skip|only|todo|fails|skipIf|runIf)\b|\bx(it|describe|test)\s*\(/;
    expect(pattern.test(`${'test'}.skip('x')`) && pattern.test(`${'describe'}.only('x')`)).toBe(true);
    expect(findLines(tests, pattern)).toEqual([]);
  });
});

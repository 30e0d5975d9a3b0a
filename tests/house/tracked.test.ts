/** What may stand in the repository at all. */
import { describe, expect, test } from 'vitest';
import { findLines, projectFiles, read } from './tracked.ts';

const files = projectFiles();
const isText = (path: string): boolean => !/\.(png|jpe?g|webp|gif|woff2?|ico|pdf|zip)$/.test(path);
const texts = files.filter(isText);

const topLevel = [
  'README.md', 'DEVELOPERS.md', 'LANGUAGE.md', 'LICENSE', 'package.json', 'package-lock.json', 'vite.config.ts', 'tsconfig.json',
  'worksheets', 'src', 'build', 'tests', 'data-demo',
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

  /** Places that every served page, and every system of a kind, has. Anything else that begins at a root belongs to one machine. */
  const systemFolders = ['/index.html', '/usr/bin', '/var/lib', '/Applications', '/etc/passwd'];
  // A path from a root: at the beginning, or behind a blank, a quote or a bracket. Two names at least, so that `/ 2` and a tag's end are none.
  const rooted = /(?<![^\s'"`([={!:,])(?:[A-Za-z]:\\(?:\w+\\)|\/[A-Za-z][\w.-]*\/)[\w.\- ]+/g;
  const strange = (text: string): readonly string[] => (text.match(rooted) ?? []).filter((path) => !systemFolders.some((folder) => path.startsWith(folder)));

  test('has relative paths only', () => {
    expect(['see /home/ann/notes', '"/tmp/x"', "'/srv/data/x'", 'C:\\\\Users\\\\ann'.replaceAll('\\\\', '\\')].map((text) => strange(text).length)).toEqual([1, 1, 1, 1]);
    expect(['../notes/x', 'a/tmp/b', 'N/mm^2/s', '#!/usr/bin/env', 'https://example.org/a/b', '</dd></div>', 'x / y / z'].flatMap(strange)).toEqual([]);
    const own = 'tests/house/tracked.test.ts';
    expect(texts.filter((path) => path !== own).flatMap((path) => strange(read(path)).map((found) => `${path}: ${found}`))).toEqual([]);
  });

  /** Hosts that may stand in a file: names of languages, what is kept for examples, this computer, and where Node.js is. */
  const hosts = ['www.w3.org', 'example.org', 'localhost', '127.0.0.1', 'nodejs.org'];
  const addresses = /\b(?:https?|wss?|ftp|git|ssh)(?:\+\w+)?:\/\/(?:[^\s/@'"`]*@)?([\w.-]+|\$\{)/gi;
  const elsewhere = (text: string): readonly string[] => [...text.matchAll(addresses)].map(([, host = '']) => host.toLowerCase()).filter((host) => host !== '${' && !hosts.includes(host));

  test('names no address but those that may stand', () => {
    expect(['see https://packages.somewhere.net/x', 'git+ssh://git@somewhere.net/x', 'http://10.0.0.7:8080'].map((text) => elsewhere(text).length)).toEqual([1, 1, 1]);
    expect(['http://www.w3.org/2000/svg', 'https://example.org/x.png', 'http://127.0.0.1:${port}/'].flatMap(elsewhere)).toEqual([]);
    // The lock file says of packages where money may be given to their makers; where packages come from it does not say.
    const lock = 'package-lock.json';
    const others = texts.filter((path) => path !== lock && path !== 'tests/house/tracked.test.ts');
    expect(others.flatMap((path) => elsewhere(read(path)).map((host) => `${path}: ${host}`))).toEqual([]);
    expect(elsewhere(JSON.stringify(JSON.parse(read(lock)), (key, value: unknown) => (key === 'funding' ? undefined : value)))).toEqual([]);
    expect(findLines(texts.filter((path) => path === lock || path === '.npmrc'), /^\s*(@[\w-]+:)?registry\s*=|"resolved"\s*:/i)).toEqual([]);
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

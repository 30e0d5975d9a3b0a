// What the start, test and bench drivers share. Only Node's own modules: it runs before anything is installed.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const top = dirname(dirname(fileURLToPath(import.meta.url)));
export const builtPage = join(top, 'dist', 'index.html');
const oldestNode = 20;

/** Ends the process with what is wrong and what to do about it. */
export function giveUp(message) {
  process.stderr.write(`\n${message}\n`);
  process.exit(1);
}

export function requireNode() {
  const major = Number(process.versions.node.split('.')[0]);
  if (major >= oldestNode) return;
  giveUp(
    `Spanlife needs Node.js ${oldestNode} or newer; this is ${process.versions.node}.\n` +
      'Install a newer Node.js (the "LTS" download of the Node.js site, or your system\'s package manager) and try again.',
  );
}

/** Runs a command in the project's folder with its output on ours; true when it succeeded. */
export function run(command, args, { env = {}, shell = false } = {}) {
  const result = spawnSync(command, args, {
    cwd: top,
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, ...env },
    shell,
  });
  return result.status === 0;
}

/** Runs a command beside others: settles with whether it succeeded, all that it said, in one piece, and how long it took in milliseconds. */
function runAside(command, args, { shell = false } = {}) {
  return new Promise((resolve) => {
    const begun = Date.now();
    const child = spawn(command, args, { cwd: top, stdio: ['ignore', 'pipe', 'pipe'], shell });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) stream.setEncoding('utf8').on('data', (text) => (said += text));
    const end = (succeeded) => resolve({ succeeded, said, took: Date.now() - begun });
    child.on('error', (error) => {
      said += `${error.message}\n`;
      end(false);
    });
    child.on('close', (code) => end(code === 0));
  });
}

/** npm: the one that started us, or the one on the path (a batch file on Windows, hence the shell). */
function npmCommand(args) {
  const own = process.env.npm_execpath;
  if (own !== undefined && /npm-cli\.[cm]?js$/.test(own)) return [process.execPath, [own, ...args], {}];
  return ['npm', args, { shell: process.platform === 'win32' }];
}

function npm(...args) {
  return run(...npmCommand(args));
}

export function npmAside(...args) {
  return runAside(...npmCommand(args));
}

/** Runs a JavaScript file of an installed package. */
export function runPackage(file, args, options) {
  return run(process.execPath, [join(top, 'node_modules', file), ...args], options);
}

/** Milliseconds of the last change, 0 for what does not exist; for a folder, of the newest file in it. */
function changed(path) {
  if (!existsSync(path)) return 0;
  const status = statSync(path);
  if (!status.isDirectory()) return status.mtimeMs;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, changed(join(path, name))), status.mtimeMs);
}

/** Installs the packages of the lock file where they are missing or older than it. */
export function ensurePackages() {
  const installed = changed(join(top, 'node_modules', '.package-lock.json'));
  if (installed > 0 && installed >= changed(join(top, 'package-lock.json'))) return;
  console.log('Installing packages (npm ci) …');
  // No package here needs its install script: what is native comes as a package of its own.
  if (!npm('ci', '--include=dev', '--ignore-scripts', '--no-fund', '--no-audit')) {
    giveUp('npm ci failed: see its message above. It needs the network, or a filled npm cache, once.');
  }
}

/** Runs the tests of some of the projects of tests/vitest.config.ts. */
export function runTests(projects, args, options) {
  const chosen = projects.flatMap((name) => ['--project', name]);
  return runPackage('vitest/vitest.mjs', ['run', '--config', 'tests/vitest.config.ts', '--root', '.', ...chosen, ...args], options);
}

const BUILD = ['vite/bin/vite.js', ['build']];

function build() {
  return runPackage(...BUILD);
}

/** Builds the page beside other work. */
export function buildAside() {
  const [file, args] = BUILD;
  return runAside(process.execPath, [join(top, 'node_modules', file), ...args]);
}

/** Whether the page is there and newer than all that it is made from. */
export function isBuilt() {
  const sources = ['src', 'build', 'worksheets', 'vite.config.ts', 'package-lock.json', 'LICENSE'].map((name) => changed(join(top, name)));
  return changed(builtPage) >= Math.max(...sources);
}

/** Builds the page where it is missing or older than what it is made from. */
export function ensureBuilt() {
  if (isBuilt()) return;
  console.log('Building the page …');
  if (!build()) giveUp('The build failed: see its message above.');
}

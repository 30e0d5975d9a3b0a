// npm test: installs what is missing, then types, lint and build side by side, unit tests and journeys. Ends with `N passed, N failed`.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, mkdtempSync, openSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { ensureBrowser } from './browser.mjs';
import { enginesRequired, missingEngines } from './engines.mjs';
import { buildAside, ensurePackages, giveUp, isBuilt, npmAside, requireNode, runPackage, runTests, top } from './house.mjs';

requireNode();
ensurePackages();
const browser = await ensureBrowser(runPackage);
if (browser === undefined) {
  giveUp(
    process.env.CHROMIUM
      ? `There is no browser at ${process.env.CHROMIUM}, which the variable CHROMIUM names. Correct it or unset it.`
      : 'The tests need a Chromium and could not install one. Install Chromium or Chrome with your system\'s package\n' +
          'manager, or set the variable CHROMIUM to the path of one, then run npm test again.',
  );
}

const reports = mkdtempSync(join(tmpdir(), 'spanlife-tests-'));
process.on('exit', () => rmSync(reports, { recursive: true, force: true }));
let passed = 0;
let failed = 0;
const troubles = [];
/** What each stage took, and each test file, with its milliseconds. */
const stages = [];
const files = [];
/** Tests that passed by a second try, with what they said at the first: each is a fault of the page or of the test that has not been found yet. */
const again = [];

const seconds = (milliseconds) => (milliseconds / 1000).toFixed(1);

function ended(name, trouble, took) {
  const time = `${seconds(took)} s`;
  console.log(`-- ${name}: ${trouble ?? 'passed'} (${time})`);
  stages.push(`${time.padStart(9)}  ${name}`);
  if (trouble !== undefined) troubles.push(`${name}: ${trouble}`);
}

/**
 * Stages that need nothing of each other, side by side: none of them keeps two cores busy. What each says is printed whole, in order.
 * One that is right or wrong as a whole counts as one failure when it is wrong.
 */
async function together(stagesBegun) {
  const all = await Promise.all(Object.entries(stagesBegun).map(async ([name, begun]) => ({ name, ...(await begun) })));
  for (const { name, succeeded, said, took } of all) {
    console.log(`\n== ${name} ==`);
    process.stdout.write(said);
    if (!succeeded) failed += 1;
    ended(name, succeeded ? undefined : 'failed', took);
  }
  return Object.fromEntries(all.map(({ name, succeeded }) => [name, succeeded]));
}

function tests(name, projects) {
  const begun = Date.now();
  console.log(`\n== ${name} ==`);
  ended(name, troubleOf(projects), Date.now() - begun);
}

/** Vitest counts for itself; a file that does not load, or an error outside any test, is a failure too. */
function troubleOf(projects) {
  const file = join(reports, `${projects[0]}.json`);
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const succeeded = runTests(projects, reporters, { env: { CHROMIUM: browser } });
  const counted = readReport(file);
  if (counted === undefined) {
    failed += 1;
    return 'gave no report';
  }
  passed += counted.passed;
  failed += counted.failed;
  if (counted.failed > 0) return `${counted.failed} failed`;
  const trouble = counted.passed === 0 ? 'no test ran' : counted.notRun > 0 ? `${counted.notRun} did not run` : undefined;
  if (succeeded && trouble === undefined) return undefined;
  failed += 1;
  return trouble ?? 'failed outside the tests';
}

function readReport(file) {
  let report;
  try {
    report = JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
  for (const { name, startTime, endTime } of report.testResults) files.push([endTime - startTime, relative(top, name)]);
  for (const { name, assertionResults } of report.testResults) {
    for (const { status, fullName, failureMessages } of assertionResults) {
      if (status === 'passed' && failureMessages.length > 0) again.push(`${relative(top, name)} > ${fullName}\n${firstLines(failureMessages[0])}`);
    }
  }
  const brokenFiles = report.testResults.filter((suite) => suite.status === 'failed' && suite.assertionResults.length === 0);
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + brokenFiles.length,
    notRun: report.numPendingTests + report.numTodoTests,
  };
}

/** What a failure says, without the way through the code but for the place in the test. */
function firstLines(message) {
  const lines = message.replace(/\u001b\[[0-9;]*m/g, '').split('\n');
  const place = lines.find((line) => /^\s+at .*tests[\\/]/.test(line));
  return [...lines.filter((line) => !/^\s+at /.test(line)).slice(0, 12), ...(place === undefined ? [] : [place])].map((line) => `    ${line.replace(`${top}/`, '')}`).join('\n');
}

/** Firefox and WebKit are installed while other stages run. Settles with what that took and said; it says so into a file, which nobody has to read meanwhile. */
function beginEngines() {
  if (missingEngines().length === 0) return { ended: Promise.resolve(), said: () => '' };
  const file = join(reports, 'engines.log');
  const log = openSync(file, 'w');
  const child = spawn(process.execPath, [join(top, '.scripts', 'engines.mjs')], { cwd: top, stdio: ['ignore', log, log] });
  closeSync(log);
  return { ended: once(child, 'close'), said: () => readFileSync(file, 'utf8') };
}

/** An engine that cannot be had is a line where nobody asked for it, and a failure in the check on a fresh clone. */
async function engines({ ended: installed, said }) {
  const begun = Date.now();
  console.log('\n== engines ==');
  await installed;
  const missing = missingEngines();
  if (missing.length > 0) process.stdout.write(said());
  const without = `not there: ${missing.join(', ')}; the smoke journeys are not made in it`;
  if (missing.length > 0 && enginesRequired()) {
    failed += 1;
    ended('engines', without, Date.now() - begun);
  } else {
    if (missing.length > 0) console.log(`${without}. SPANLIFE_ENGINES=required makes that a failure.`);
    ended('engines', undefined, Date.now() - begun);
  }
}

const alreadyBuilt = { succeeded: true, said: 'The page is newer than all that it is made from.\n', took: 0 };
const installing = beginEngines();
const { build } = await together({
  types: npmAside('run', '--silent', 'types'),
  lint: npmAside('run', '--silent', 'lint'),
  build: isBuilt() ? alreadyBuilt : buildAside(),
});
tests('unit tests', ['unit', 'unit-apart']);
await engines(installing);
if (build) tests('journeys', ['journeys']);
else troubles.push('journeys: not started, because there is no page to open');

files.sort(([one], [other]) => other - one);
console.log(`\nThe slowest test files\n${files.slice(0, 10).map(([took, name]) => `${seconds(took).padStart(7)} s  ${name}`).join('\n')}`);
if (again.length > 0) console.log(`\nPassed by a second try\n${again.join('\n')}`);
console.log(`\nStages\n${stages.join('\n')}`);
if (troubles.length > 0) console.log(`\n${troubles.join('\n')}`);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;

/**
 * Fits of long tables whose stresses are all different, so that nothing can be taken together in them: least squares over 10⁶ rows beside numpy, maximum
 * likelihood with half of the rows unbroken over 10⁵ rows beside R's survreg, and limits by profile likelihood; ours in a page, in turns with the
 * others. What both find is compared, too: a fit that is quick and finds something else is none.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { ensurePeer, peerPackages } from '../../.scripts/peers.mjs';
import type { LifeDistribution } from '../../src/core/fatigue/index.ts';
import { launch, top } from '../journeys/harness-browser.ts';
import { bundled } from './bundle.ts';
import * as inPage from './fits-in-page.ts';
import { printTable, tellWithout, type Row } from './harness.ts';

type Bundle = typeof inPage;

const [LONG, CENSORED, END_OF_TEST, TURNS, RUNS] = [1_000_000, 100_000, 2e6, 3, 3];
const folder = mkdtempSync(join(tmpdir(), 'fits-'));
const compared: string[] = [];

/** Prints what both found, with the largest difference relative. */
function compare(what: string, ours: readonly number[], peers: readonly number[]): void {
  const apart = ours.map((value, i) => Math.abs(value / (peers[i] ?? Number.NaN) - 1));
  const told = (values: readonly number[]): string => values.map((value) => value.toPrecision(12)).join(', ');
  compared.push(`${what}: ${told(ours)}; the peer ${told(peers)}; at most ${Math.max(...apart).toExponential(1)} apart, relative`);
}

/** A table as doubles, column after column. */
function fileOf(name: string, columns: readonly Float64Array[]): string {
  const path = join(folder, name);
  writeFileSync(path, Buffer.concat(columns.map(({ buffer }) => Buffer.from(buffer))));
  return path;
}

async function leastSquares(page: Page): Promise<Row[]> {
  const python = await ensurePeer('numpy');
  if (python === undefined) tellWithout('numpy.polyfit', `install ${peerPackages('numpy')}`);
  const table = inPage.tableOf(LONG, Infinity);
  const file = fileOf('lives.f64', [table.stressMpa, table.cycles]);
  const [line, whole, peers]: [number[], number[], number[]] = [[], [], []];
  for (let turn = 0; turn < TURNS; turn++) {
    const ours = await page.evaluate(([rows, runs]) => {
      const { bundle } = globalThis as unknown as { bundle: Bundle };
      return [bundle.leastSquares(rows, runs, false), bundle.leastSquares(rows, runs, true)] as const;
    }, [LONG, RUNS] as const);
    line.push(...ours[0].times);
    whole.push(...ours[1].times);
    if (python === undefined) continue;
    const said = JSON.parse(execFileSync(python, [join(top, 'tests/bench/fits-numpy.py'), file, String(RUNS + 1)], { encoding: 'utf8' })) as
      { times: number[]; slope: number; intercept: number; errors: readonly [number, number] };
    peers.push(...said.times.slice(1));
    if (turn === 0) compare('least squares: A, B, their errors', ours[0].found.slice(0, 4), [said.intercept, said.slope, said.errors[1], said.errors[0]]);
  }
  const peer = python === undefined ? {} : { peer: { what: 'numpy.polyfit', times: peers } };
  return [
    { what: 'least squares, 10⁶ rows: line, errors, limits, likelihood', times: line, ratioTarget: 0.3, ...peer },
    { what: 'and replication, lack of fit, rows that stand apart', times: whole, ...peer },
  ];
}

async function likelihood(page: Page, life: LifeDistribution): Promise<Row[]> {
  const script = await ensurePeer('survival');
  if (script === undefined) tellWithout('survreg', `install ${peerPackages('survival')}`);
  const table = inPage.tableOf(CENSORED, END_OF_TEST);
  const file = fileOf('censored.f64', [table.stressMpa, table.cycles, table.broken]);
  const [own, limits, peers]: [number[], number[], number[]] = [[], [], []];
  for (let turn = 0; turn < TURNS; turn++) {
    const ours = await page.evaluate(([rows, runs, end, lives]) => {
      const { bundle } = globalThis as unknown as { bundle: Bundle };
      return { fit: bundle.likelihood(rows, runs, end, lives), limits: bundle.profile(rows, 1, end, lives) };
    }, [CENSORED, RUNS, END_OF_TEST, life] as const);
    own.push(...ours.fit.times);
    limits.push(...ours.limits);
    if (script === undefined) continue;
    const [times = '', said = ''] = execFileSync(script, [join(top, 'tests/bench/fits-survival.R'), file, String(RUNS + 1), life], { encoding: 'utf8' }).trim().split('\n');
    peers.push(...times.trim().split(/\s+/).slice(1).map((seconds) => 1000 * Number(seconds)));
    // Theirs is of natural logarithms.
    const [intercept = 0, slope = 0, scale = 0, logLikelihood = 0] = said.trim().split(/\s+/).map(Number);
    const [a = 0, b = 0, , , s = 0, ownLikelihood = 0] = ours.fit.found;
    if (turn === 0) compare(`maximum likelihood, ${life}: A, B, s, log likelihood`, [a, b, s, ownLikelihood], [intercept / Math.LN10, slope / Math.LN10, scale / Math.LN10, logLikelihood]);
  }
  return [
    { what: `maximum likelihood, ${life}, 10⁵ rows, half unbroken`, times: own, ratioTarget: 0.15, ...(script === undefined ? {} : { peer: { what: 'survreg', times: peers } }) },
    { what: `limits of B by profile likelihood, ${life}, of the same rows`, times: limits },
  ];
}

const browser = await launch();
try {
  const page = await browser.newPage();
  await page.goto('about:blank');
  await page.addScriptTag({ content: (await bundled('tests/bench/fits-in-page.ts')).replace(/^var bundle\s*=/, 'globalThis.bundle=') });
  printTable('Fits of long tables', [...await leastSquares(page), ...await likelihood(page, 'lognormal'), ...await likelihood(page, 'weibull')]);
  console.log(compared.join('\n'));
} finally {
  await browser.close();
  rmSync(folder, { recursive: true });
}

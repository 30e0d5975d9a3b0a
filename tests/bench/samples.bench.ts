/**
 * A million samples of the life through the whole sheet of rotating bending, as it stands unedited: in one worker in Chromium, with
 * numpy on one thread, and compiled, in turns in one run. Then typing while samples are being made in the built page.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright';
import { ensurePeer, peerPackages } from '../../.scripts/peers.mjs';
import { createSheetGraph, samplingRequest, type SampledResult, type SamplingRequest } from '../../src/graph/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { builtPage, launch, sizes, top } from '../journeys/harness-browser.ts';
import { shipped } from '../shipped.ts';
import { bundled } from './bundle.ts';
import { printTable, tellWithout, type Row } from './harness.ts';

const COUNT = 1_000_000;
const TURNS = 5;
const RUNS_A_TURN = 3;

const [ALL_ANEW, ALL, ONE] = ['in the page, a worker for each core, started anew', 'in the page, a worker for each core, used again', 'in the page, one worker, used again'];
const [NUMPY, NUMPY_ANEW, COMPILED] = ['numpy, one thread', 'numpy, started anew each time', 'compiled, one thread (g++ -O3)'];

interface Turn {
  readonly times: readonly number[];
  /** Mean, standard deviation and ends of the interval. */
  readonly found: readonly number[];
}

async function requestOf(): Promise<SamplingRequest> {
  const graph = createSheetGraph(parseSheet(shipped('rotating-bending')));
  const request = samplingRequest(graph.compiled(), await graph.settled(), 'N_f', { seed: 1, digits: 2, count: COUNT });
  graph.dispose();
  return request;
}

/** From the request to the whole answer: mean, u, both intervals, histogram, stability; by so many workers, of which the first leads, as the page hires them. Started anew each time, or once for all. */
function inWorkers(page: Page, code: string, request: SamplingRequest, workers: number, isFresh: boolean): Promise<Turn> {
  return page.evaluate(async ({ text, asked, many, fresh, runs }) => {
    const url = URL.createObjectURL(new Blob([text], { type: 'text/javascript' }));
    const times: number[] = [];
    let found: number[] = [];
    let hired: Worker[] = [];
    for (let run = 0; run < runs; run++) {
      const begun = performance.now();
      if (hired.length === 0) hired = Array.from({ length: many }, () => new Worker(url));
      const [leader, ...helpers] = hired;
      if (leader === undefined) throw new Error('nobody works');
      const wanted = { ...asked, seed: run };
      const result = await new Promise<SampledResult>((done, refuse) => {
        leader.onmessage = ({ data }) => data.tells === 'done' && done(data.result);
        for (const worker of hired) worker.onerror = (event) => refuse(new Error(event.message));
        const ports = helpers.map((helper) => {
          const { port1, port2 } = new MessageChannel();
          helper.postMessage({ do: 'help', request: wanted, port: port1 }, [port1]);
          return port2;
        });
        leader.postMessage({ do: 'sample', request: wanted, helpers: ports }, ports);
      });
      times.push(performance.now() - begun);
      const { summary } = result;
      found = summary === undefined ? [] : [summary.mean, summary.standardDeviation, summary.low, summary.high];
      if (fresh) hired.splice(0).forEach((worker) => worker.terminate());
    }
    hired.forEach((worker) => worker.terminate());
    URL.revokeObjectURL(url);
    return { times: fresh ? times : times.slice(1), found };
  }, { text: code, asked: request, many: workers, fresh: isFresh, runs: isFresh ? RUNS_A_TURN : RUNS_A_TURN + 1 });
}

/** Deviations that several inputs have in common, by their names: peers sample each once. */
const causesOf = ({ inputs }: SamplingRequest): readonly string[] => {
  const named = inputs.flatMap(({ components }) => components.flatMap(({ common }) => common ?? []));
  return [...new Set(named)].filter((name) => named.indexOf(name) !== named.lastIndexOf(name));
};
const partsOf = ({ components }: SamplingRequest['inputs'][number], causes: readonly string[]) => components.map(({ distribution, standardUncertainty, degreesOfFreedom, common }) =>
  [distribution, standardUncertainty, Number.isFinite(degreesOfFreedom) ? degreesOfFreedom : null, causes.find((name) => name === common) ?? null] as const);
const givenOf = ({ chain }: SamplingRequest) => chain.links.map(({ symbol, value }) => [symbol, value] as const);

/** Once warm, or started anew each time, as a worker is: then the import of numpy counts. */
function withNumpy(python: string, request: SamplingRequest, isFresh: boolean): Turn {
  const asked = {
    count: COUNT, runs: isFresh ? 1 : RUNS_A_TURN + 1, given: Object.fromEntries(givenOf(request)),
    inputs: Object.fromEntries(request.inputs.map((input) => [input.id, { value: input.value, parts: partsOf(input, causesOf(request)) }])),
  };
  const begun = performance.now();
  const said = execFileSync(python, [join(top, 'tests/bench/samples-numpy.py')], { input: JSON.stringify(asked), encoding: 'utf8', stdio: ['pipe', 'pipe', 'ignore'] });
  const whole = performance.now() - begun;
  const { times, mean, u, low, high } = JSON.parse(said) as { times: number[]; mean: number; u: number; low: number; high: number };
  return { times: isFresh ? [whole] : times.slice(1), found: [mean, u, low, high] };
}

function compiled(program: string, request: SamplingRequest): Turn {
  const causes = causesOf(request);
  const lines = [
    `${COUNT} ${RUNS_A_TURN + 1} ${request.inputs.length} ${causes.length}`,
    ...request.inputs.map((input) => {
      const parts = partsOf(input, causes);
      return `${input.id} ${input.value} ${parts.length} ${parts.map(([kind, u, freedom, cause]) => `${kind} ${u} ${freedom ?? 0} ${cause === null ? -1 : causes.indexOf(cause)}`).join(' ')}`;
    }),
    ...givenOf(request).map(([symbol, value]) => `${symbol} ${value}`),
  ];
  const said = execFileSync(program, { input: lines.join('\n'), encoding: 'utf8' }).trim().split('\n');
  return { times: said.slice(1, -1).map(Number), found: (said.at(-1) ?? '').split(' ').map(Number) };
}

async function compareSamplings(page: Page): Promise<void> {
  const request = await requestOf();
  const code = await bundled('src/app/sampling-worker.ts');
  // As many as the page has.
  const workers = Math.min(4, await page.evaluate(() => navigator.hardwareConcurrency));
  const folder = mkdtempSync(join(tmpdir(), 'samples-'));
  const program = join(folder, 'samples');
  try {
    const ways = new Map<string, () => Turn | Promise<Turn>>([
      [ALL_ANEW, () => inWorkers(page, code, request, workers, true)],
      [ALL, () => inWorkers(page, code, request, workers, false)],
      ...(workers > 1 ? [[ONE, () => inWorkers(page, code, request, 1, false)] as const] : []),
    ]);
    const python = await ensurePeer('numpy');
    if (python !== undefined) {
      ways.set(NUMPY, () => withNumpy(python, request, false));
      ways.set(NUMPY_ANEW, () => withNumpy(python, request, true));
    } else tellWithout('numpy', `install ${peerPackages('numpy')}`);
    const compiler = await ensurePeer('g++');
    if (compiler !== undefined) {
      execFileSync(compiler, ['-O3', '-march=native', '-o', program, join(top, 'tests/bench/samples-compiled.cpp')], { stdio: 'inherit' });
      ways.set(COMPILED, () => compiled(program, request));
    } else tellWithout('compiled code', `install ${peerPackages('g++')}`);
    const rows = new Map<string, { times: number[]; found: readonly number[] }>();
    for (let turn = 0; turn < TURNS; turn++) {
      for (const [what, make] of ways) {
        const { times, found } = await make();
        rows.set(what, { times: [...(rows.get(what)?.times ?? []), ...times], found });
      }
    }
    const against = (what: string, peer: string, ratioTarget?: number): Row[] => {
      const [own, other] = [rows.get(what), rows.get(peer)];
      if (own === undefined || other === undefined) return [];
      return [{ what, times: own.times, peer: { what: peer, times: other.times }, ...(ratioTarget === undefined ? {} : { ratioTarget }) }];
    };
    printTable(`${COUNT} draws of the life through the whole sheet of rotating bending`, [
      ...against(ALL, NUMPY, 0.5), ...against(ALL, COMPILED, 1), ...against(ALL_ANEW, NUMPY, 1), ...against(ALL_ANEW, NUMPY_ANEW),
      ...against(ONE, NUMPY), ...against(ONE, COMPILED), ...against(ALL, ONE, workers === 2 ? 1 / 1.7 : undefined),
    ]);
    for (const [what, { found }] of rows) console.log(`${what}: mean, u, low, high ${found.map((value) => value.toPrecision(4)).join(', ')}`);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** An edit to its results in the page while samples are being made there: of a value that they hang on, which begins them anew, and of one that they do not. */
async function typeMeanwhile(page: Page): Promise<void> {
  await page.goto(pathToFileURL(builtPage).href);
  const cell = page.locator('[data-cell="N_f"]');
  await cell.waitFor();
  const before = await edits(page, false);
  await cell.focus();
  await cell.getByRole('button', { name: 'draws', exact: true }).focus();
  await page.keyboard.press('Enter');
  await cell.locator('.verdict-line').waitFor({ timeout: 120_000 });
  printTable('An edit to its results, with and without draws being made', [...before, ...await edits(page, true)]);
}

async function edits(page: Page, isSampling: boolean): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [what, selector, values] of [
    ['diameter, on which the draws hang', '[data-symbol="d"] input', ['7.51 mm', '7.53 mm']],
    ['speed, on which they do not', '[data-symbol="n"] input', ['2800 rev/min', '2900 rev/min']],
  ] as const) {
    const times: number[] = [];
    for (let run = 0; run < 60; run++) {
      times.push(await page.evaluate(async ({ at, text, sampling }) => {
        // Samples are under way whenever a key goes down.
        for (let tries = 0; sampling && document.querySelector('.draws progress') === null && tries < 100; tries++) {
          const again = [...document.querySelectorAll<HTMLButtonElement>('.draws button')].find(({ textContent }) => textContent === 'another seed');
          again?.click();
          for (let frames = 0; frames < 30 && document.querySelector('.draws progress') === null; frames++) await new Promise((done) => requestAnimationFrame(done));
        }
        const input = document.querySelector<HTMLInputElement>(at);
        if (input === null) throw new Error(`no ${at} on the page`);
        const settled = new Promise<void>((done) => window.addEventListener('spanlife:settled', () => done(), { once: true }));
        const begun = performance.now();
        input.value = text;
        input.dispatchEvent(new Event('input', { bubbles: true }));
        input.dispatchEvent(new Event('change', { bubbles: true }));
        await settled;
        return performance.now() - begun;
      }, { at: selector, text: values[run % 2] ?? '', sampling: isSampling }));
    }
    rows.push({ what: `${what}${isSampling ? '; drawing' : ''}`, times: times.slice(10), target: 50 });
  }
  return rows;
}

const browser = await launch();
try {
  const page = await browser.newPage(sizes.desktop);
  await page.goto('about:blank');
  await compareSamplings(page);
  await typeMeanwhile(page);
} finally {
  await browser.close();
}

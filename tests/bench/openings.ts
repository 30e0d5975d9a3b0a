/** Openings of a page, each in a window without history: by the clock, by the processor time of its process, and where that goes. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, CDPSession, Page } from 'playwright';
import { sizes } from '../journeys/harness-browser.ts';

export const folder = mkdtempSync(join(tmpdir(), 'spanlife-bench-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

/** What there is to compare with: a page that says one word. */
export const emptyPage = join(folder, 'empty.html');
writeFileSync(emptyPage, '<!doctype html>\n<html lang="en"><meta charset="utf-8"><title>Empty</title><p>Empty</p>\n');

export interface How {
  readonly size: keyof typeof sizes;
  /** So many times slower than this processor. */
  readonly slowdown: number;
}

/** Milliseconds from the beginning of the opening; of the process, processor time until nothing is left to do. */
export interface Opening {
  readonly content: number;
  /** The page answers, and its first blank is there; undefined where there is none. */
  readonly usable: number | undefined;
  /** All of the sheet is in the page and its equations are set. */
  readonly settled: number | undefined;
  readonly process: number;
}

/** Nothing has changed for so long, ms: then nothing is left to do. */
const QUIET = 400;

interface Watched {
  changed: number;
  usable?: number;
}

/** Runs in the page, before anything of it. */
function watch(): void {
  const seen: Watched = { changed: 0 };
  Object.assign(window, { benchSeen: seen });
  new MutationObserver(() => {
    seen.changed = performance.now();
    if (seen.usable !== undefined || document.querySelector('[data-symbol="d"] input') === null) return;
    seen.usable = Number.POSITIVE_INFINITY;
    // Once the task that put it there is over, the page answers.
    setTimeout(() => void (seen.usable = performance.now()));
  }).observe(document, { childList: true, subtree: true, attributes: true, characterData: true });
}

async function whenQuiet(page: Page): Promise<Omit<Opening, 'process'>> {
  await page.waitForFunction((quiet) => {
    const { changed } = (window as unknown as { readonly benchSeen: Watched }).benchSeen;
    return document.readyState === 'complete' && performance.now() - changed > quiet && document.querySelector('body > .lifeless') === null;
  }, QUIET, { polling: 100, timeout: 60_000 });
  return page.evaluate(() => {
    const { changed, usable } = (window as unknown as { readonly benchSeen: Watched }).benchSeen;
    const content = performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN;
    return { content, usable, settled: usable === undefined ? undefined : changed };
  });
}

async function inNewWindow<T>(browser: Browser, { size, slowdown }: How, work: (page: Page, session: CDPSession) => Promise<T>): Promise<T> {
  const context = await browser.newContext(sizes[size]);
  try {
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
    await page.addInitScript(watch);
    return await work(page, session);
  } finally {
    await context.close();
  }
}

export async function open(browser: Browser, file: string, how: How): Promise<Opening> {
  return inNewWindow(browser, how, async (page, session) => {
    await session.send('Performance.enable');
    await page.goto(pathToFileURL(file).href);
    const times = await whenQuiet(page);
    const { metrics } = await session.send('Performance.getMetrics');
    return { ...times, process: 1000 * (metrics.find(({ name }) => name === 'ProcessTime')?.value ?? Number.NaN) };
  });
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** What the browser calls what it does, by what that is. The first that fits counts; what fits none is its own running about. */
const KINDS: readonly (readonly [kind: string, names: RegExp])[] = [
  ['collecting memory', /GC|Scavenge|MinorGC|MajorGC|CppGC/],
  ['script: read and compiled', /V8\.(?:Parse|PreParse|Compile|FinalizeParse)|v8\.(?:compile|produceCache)|V8\.CompileIgnition/],
  ['script: made faster while it runs', /Maglev|Turbofan|Optimize|Sparkplug|V8\.TF|FlushInstructionCache|V8\.Finalize/],
  ['script: run', /^(?:v8\.|FunctionCall|EvaluateScript|TimerFire|FireAnimationFrame|FireIdleCallback|RunMicrotasks|EventDispatch|AsyncTask|BlinkScheduler_PerformMicrotaskCheckpoint|V8\.)/],
  ['unpacking', /Inflate|Decompress/],
  ['the HTML read', /ParseHTML|HTMLDocumentParser|TextResourceDecoder|DocumentLoader/],
  ['styles', /[Ss]tyle|CSS/],
  ['layout', /[Ll]ayout|InlineNode|Intersection|HitTest/],
  ['painting', /[Pp]aint|Raster|Composit|Layer|Draw|Commit/],
];

/** Milliseconds of the page's process by kind, of its own thread and of those that help it. */
export async function byKind(browser: Browser, file: string, how: How): Promise<ReadonlyMap<string, number>> {
  return inNewWindow(browser, how, async (page) => {
    const categories = ['devtools.timeline', 'v8', 'disabled-by-default-v8.gc', 'disabled-by-default-v8.compile', 'blink', 'cc', 'loading', 'toplevel', '__metadata'];
    await browser.startTracing(page, { categories });
    await page.goto(pathToFileURL(file).href);
    await whenQuiet(page);
    const { traceEvents } = JSON.parse((await browser.stopTracing()).toString('utf8')) as { readonly traceEvents: readonly TraceEvent[] };
    return kindsOf(traceEvents);
  });
}

function kindsOf(events: readonly TraceEvent[]): ReadonlyMap<string, number> {
  const placeOf = ({ pid, tid }: TraceEvent): string => `${pid}:${tid}`;
  const main = events.filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain').map(({ pid }) => pid);
  const threads = new Map<string, TraceEvent[]>();
  for (const event of events) {
    if (event.ph !== 'X' || event.tdur === undefined || !main.includes(event.pid)) continue;
    const list = threads.get(placeOf(event)) ?? [];
    threads.set(placeOf(event), list);
    list.push(event);
  }
  const sums = new Map<string, number>();
  for (const list of threads.values()) {
    const around: { readonly end: number; readonly event: TraceEvent; own: number }[] = [];
    const end = (): void => {
      const last = around.pop();
      if (last === undefined) return;
      const kind = KINDS.find(([, names]) => names.test(last.event.name))?.[0] ?? 'all else';
      sums.set(kind, (sums.get(kind) ?? 0) + last.own / 1000);
    };
    for (const event of list.toSorted((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0))) {
      while ((around.at(-1)?.end ?? Number.POSITIVE_INFINITY) <= event.ts) end();
      const outer = around.at(-1);
      if (outer !== undefined) outer.own -= event.tdur ?? 0;
      around.push({ event, end: event.ts + (event.dur ?? 0), own: event.tdur ?? 0 });
    }
    while (around.length > 0) end();
  }
  return sums;
}

/** Functions of ours by what they are there for; the innermost of them that runs has the time. */
const PARTS: readonly (readonly [part: string, functions: RegExp])[] = [
  ['unpacking the script', /^(?:unpacked|bytesOf)$/],
  ['script read and compiled', /^started$/],
  ['reading the sheet', /^(?:parseSheet|parseAgain)$/],
  ['compiling it', /^compileSheet$/],
  ['values', /^evaluateNode$/],
  ['equations', /^(?:setOne|setPlain|keepEquations|measureNearby|putInLine)$/],
  ['drawings', /^(?:createFigure|redrawFigure|drawingOf)$/],
  ['prose', /^(?:renderProse|headingsOf)$/],
  ['blocks: what they say', /^drawBlock$/],
  ['blocks: into the page', /^drawIfChanged$/],
  ['head, foot and side', /^(?:drawAround|showHead|drawSide)$/],
  ['storage', /^(?:createShelfStore|keepLastWords|sweep|firstSheet|createAutosave)$/],
];

/** Milliseconds of the page's own thread by part of ours. @param file a build that still has the names of its functions */
export async function byPart(browser: Browser, file: string, how: How): Promise<ReadonlyMap<string, number>> {
  return inNewWindow(browser, how, async (page, session) => {
    await session.send('Profiler.enable');
    await session.send('Profiler.setSamplingInterval', { interval: 200 });
    await session.send('Profiler.start');
    await page.goto(pathToFileURL(file).href);
    await whenQuiet(page);
    const { profile: { nodes, samples = [], timeDeltas = [] } } = await session.send('Profiler.stop');
    const callers = new Map(nodes.flatMap(({ id, children = [] }) => children.map((child) => [child, id] as const)));
    // Where two functions have one name, the bundler tells them apart by a number.
    const names = new Map(nodes.map(({ id, callFrame }) => [id, callFrame.functionName.replace(/\$\d+$/, '')]));
    const sums = new Map<string, number>();
    samples.forEach((sample, i) => {
      let part = NATIVE.get(names.get(sample) ?? '');
      if (part === undefined) {
        for (let at: number | undefined = sample; at !== undefined && part === undefined; at = callers.get(at)) {
          const name = names.get(at) ?? '';
          part = PARTS.find(([, functions]) => functions.test(name))?.[0];
        }
      }
      const key = part ?? 'other script';
      sums.set(key, (sums.get(key) ?? 0) + (timeDeltas[i] ?? 0) / 1000);
    });
    sums.delete(IDLE);
    return sums;
  });
}

const IDLE = 'nothing';
const NATIVE: ReadonlyMap<string, string> = new Map([['(idle)', IDLE], ['(program)', 'the browser itself'], ['(garbage collector)', 'collecting memory']]);

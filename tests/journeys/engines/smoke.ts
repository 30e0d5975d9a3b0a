/**
 * What a reader does in a laboratory hour, once through: start, edit, undo, drag, draws in the worker, print, a block pasted into a table, working
 * file out, opened, reloaded and brought in. Whatever differs between engines is looked at here; what each step shows beyond that, the journeys tell.
 */
import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect } from 'vitest';
import { pageOf, SHORT } from '../harness.ts';
import { plain } from '../sheet-page.ts';
import { KEYS, type Engine } from './engine.ts';
import { faultsInPrint } from './printed.ts';

/** A browser that has never seen the page, with a folder of its own for what it saves. */
export async function withEngine(start: (folder: string) => Promise<Engine>, journey: (engine: Engine, folder: string) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'spanlife-engine-'));
  try {
    const engine = await start(folder);
    try {
      await journey(engine, folder);
    } finally {
      await engine.end();
    }
  } finally {
    // Its processes may write a little longer than it answers.
    await rm(folder, { recursive: true, force: true, maxRetries: 20, retryDelay: 50 });
  }
}

/** Opens a file or an address and waits until the sheet is alive. */
export async function open(engine: Engine, path: string): Promise<void> {
  await engine.goTo(path.includes('://') ? path : pathToFileURL(path).href);
  await engine.until('the sheet is alive', () => document.querySelector('.sheet.at-work') !== null);
  await watch(engine);
}

/** Words of a part of the page. */
export const textOf = async (engine: Engine, selector: string): Promise<string> =>
  plain(await engine.run((chosen) => document.querySelector(chosen)?.textContent ?? '', selector));

export const untilSays = async (engine: Engine, selector: string, words: string): Promise<void> => {
  await engine.until(`${selector} says ${words}`, (chosen, said) => (document.querySelector(chosen)?.textContent ?? '').replace(/\s+/g, ' ').includes(said), selector, words);
};

export async function typeInto(engine: Engine, selector: string, text: string): Promise<void> {
  await engine.press(selector);
  await engine.keys('a', KEYS.control);
  await engine.keys(text);
  await engine.keys(KEYS.enter);
}

/** What the page threw, from now on: nothing may. */
async function watch(engine: Engine): Promise<void> {
  await engine.run(() => {
    const told: string[] = [];
    Object.assign(window, { told });
    addEventListener('error', ({ message }) => void told.push(message));
    addEventListener('unhandledrejection', ({ reason }) => told.push(String(reason)));
    addEventListener('securitypolicyviolation', ({ violatedDirective }) => told.push(violatedDirective));
  });
}

export async function expectQuiet(engine: Engine): Promise<void> {
  expect(await engine.run(() => (window as unknown as { told: string[] }).told)).toEqual([]);
}

/** The short sheet, which has what any sheet has in a fifth of its lines: what is printed is every drawing, and it is printed before anything is scrolled to. */
export async function startSheet(engine: Engine): Promise<void> {
  await open(engine, pageOf(SHORT));
  await untilSays(engine, '[data-symbol="sigma_a"] .result', '371.8');
  const cut = await engine.run(() => [...document.querySelectorAll('.title-block textarea')].filter(({ clientHeight, scrollHeight }) => scrollHeight > clientHeight + 1).map((field) => (field as HTMLTextAreaElement).value));
  expect(cut, 'fields of the head that are cut').toEqual([]);
  expect(await faultsInPrint(engine)).toEqual([]);

  await typeInto(engine, '[data-symbol="d"] .blanks input', '7.1 mm');
  await engine.until('the stress follows', () => !(document.querySelector('[data-symbol="sigma_a"] .result')?.textContent ?? '371.8').includes('371.8'));
  await engine.press('.standing button', 'undo');
  await untilSays(engine, '[data-symbol="sigma_a"] .result', '371.8');
  expect(await textOf(engine, '.step-strip p')).toMatch(/^Undone: “Minimum diameter/);

  await engine.placeOf('[data-cell="free-body"]');
  await engine.drag('[data-cell="free-body"] [role="slider"][aria-label="Left load point"]', 40);
  await untilSays(engine, '[data-symbol="s_1"] .trial-here', 'Trial value');

  await engine.run(() => document.querySelector<HTMLElement>('[data-cell="N_f"]')?.focus());
  await engine.press('[data-cell="N_f"] button', 'draws');
  await engine.until('draws of the life', () => document.querySelector('[data-symbol="N_f"] .draws svg.chart, [data-cell="N_f"] .draws svg.chart') !== null);
  await expectQuiet(engine);
}

/** The S-N sheet: a block pasted, out as a working file, that file opened, edited, loaded again, and brought in. */
export async function tableAndFiles(engine: Engine, saved: string): Promise<void> {
  await open(engine, pageOf('sn-line.md'));
  await engine.copy('P1\tsteel P\t350\t700000\tfracture\nP2\tsteel P\t350\t800000\tfracture\n');
  await engine.press('[data-cell="specimens"] [aria-label="Specimen, new row"]');
  await engine.paste();
  const values = (): string[] => [...document.querySelectorAll<HTMLInputElement>('[data-cell="specimens"] tbody th.number + td input')].map(({ value }) => value);
  await engine.until('the rows pasted', (has) => [...document.querySelectorAll<HTMLInputElement>('[data-cell="specimens"] tbody th.number + td input')].some(({ value }) => value === has), 'P2');
  const before = await engine.run(values);

  await engine.press('.head button', 'Take away');
  await engine.press('.head button', 'Working file');
  const path = await whole(engine, saved);
  expect(readFileSync(path, 'utf8')).toContain('P2');
  await expectQuiet(engine);

  await open(engine, path);
  await engine.until('the rows of the working file', (has) => [...document.querySelectorAll<HTMLInputElement>('[data-cell="specimens"] tbody th.number + td input')].some(({ value }) => value === has), 'P2');
  expect(await engine.run(values)).toEqual(before);
  await typeInto(engine, '.title-block input, .title-block textarea', 'Engines');
  await untilSays(engine, '.head', 'Kept in this browser at');
  await engine.reload();
  await engine.until('what was typed, after loading again', () => [...document.querySelectorAll<HTMLInputElement>('.title-block :is(input, textarea)')].some(({ value }) => value === 'Engines'));
  await engine.until('the sheet is alive again', () => document.querySelector('.sheet.at-work') !== null);
  await watch(engine);
  await engine.chooseFile('.head input[type="file"]', path);
  await untilSays(engine, '.head [role="alert"]', 'is brought in');
  await expectQuiet(engine);
}

/** The one file that was saved, when it is whole. */
async function whole(engine: Engine, saved: string): Promise<string> {
  for (const end = Date.now() + 30_000; Date.now() < end; await engine.run(() => null)) {
    const name = readdirSync(saved).find((one) => one.endsWith('.html'));
    if (name !== undefined && readFileSync(join(saved, name), 'utf8').trimEnd().endsWith('</html>')) return join(saved, name);
  }
  throw new Error('no working file was saved within 30 s');
}

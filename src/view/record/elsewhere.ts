import { nothing, render, type TemplateResult } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { presentGlance } from '../../report/index.ts';
import type { RecordCell } from '../../sheet/index.ts';
import type { Part } from '../parts.ts';
import { sayTimeShort } from '../stamps.ts';
import { html } from '../template.ts';

/** A test that runs on another sheet of the same team, as that sheet is kept. */
export interface TestElsewhere {
  readonly sheetId: string;
  /** Its specimen, or what its sheet is called where none is named. */
  readonly title: string;
  readonly cell: RecordCell;
  /** That sheet keeps what it predicts to itself. */
  readonly isWithheld: boolean;
}

export interface TestsElsewhere {
  readonly tests: () => readonly TestElsewhere[];
  /** Lays its sheet open at its record. */
  readonly open: (test: TestElsewhere) => void;
}

/** At the foot of a sheet: the tests that run on others, and the way there. Nothing is pressed into a sheet that is not open. */
export function elsewhereStrip({ tests, open }: TestsElsewhere, now: () => Date): Part {
  const shown = tests();
  return shown.length === 0 ? nothing : html`${shown.map((test) => stripOf(test, open, now))}`;
}

function stripOf(test: TestElsewhere, open: TestsElsewhere['open'], now: () => Date): TemplateResult {
  const isPaused = test.cell.pauses.some((pause) => (pause.get('to') ?? '') === '');
  return html`<div class="running-test" role="group" aria-label="The test on another sheet"><p class="at-a-glance"><button type="button" class="press way"
    @click=${() => open(test)}>${isPaused ? 'A test is paused' : 'A test is running'} on “${test.title}”</button>
    <span class="clock" data-runs-there=${test.sheetId} ${ref((element) => void (element instanceof HTMLElement && drawClock(test, now(), element)))}></span></p></div>`;
}

/** Once a second. */
export function tickElsewhere(strip: HTMLElement, { tests }: TestsElsewhere, now: Date): void {
  for (const test of tests()) {
    const place = [...strip.querySelectorAll<HTMLElement>('[data-runs-there]')].find((one) => one.dataset['runsThere'] === test.sheetId);
    if (place !== undefined) drawClock(test, now, place);
  }
}

function drawClock({ cell, isWithheld }: TestElsewhere, now: Date, place: HTMLElement): void {
  drawGlance(presentGlance(cell, isWithheld, { now: now.getTime(), say: (time) => sayTimeShort(time, now) }), place);
}

/** What the clock says of a test in a few words. */
export function drawGlance({ facts, trouble }: ReturnType<typeof presentGlance>, place: HTMLElement): void {
  render(html`${facts.map((fact) => html`<span class="fact">${fact}</span> `)}
    ${trouble === undefined ? nothing : html`<span class="trouble">${trouble}</span>`}`, place);
}

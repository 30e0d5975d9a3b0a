import { describe, expect, it } from 'vitest';
import {
  liveText, numberSheet, presentAttention, presentChecklist, presentChoice, presentGiven, presentTitleBlock, unitSystemOf,
} from '../../src/report/index.ts';
import { cellOf, contextOf, fenced, given, step } from './sheet-at.ts';

describe('presentGiven', () => {
  it('puts each reading into a blank as typed, and gives their mean', async () => {
    const context = await contextOf(fenced('given', 'symbol: d', 'label: Diameter', 'readings: 7.52, 7.50, 7.53 mm', 'unit: mm', 'instrument: micrometer, 0.01 mm'));
    const shown = presentGiven(cellOf(context, 'given', 'd'), context);
    expect(shown.blanks).toEqual(['7.52 mm', '7.50 mm', '7.53 mm']);
    expect(shown.mean).toMatch(/^7\.51\d+ mm$/);
    expect(shown).toMatchObject({ label: 'Diameter', symbolTex: 'd', instrument: 'micrometer, 0.01 mm', unit: 'mm' });
  });

  it('cuts readings with a decimal comma at the semicolon', async () => {
    const context = await contextOf(fenced('given', 'symbol: d', 'readings: 7,52; 7,50 mm', 'unit: mm'));
    expect(presentGiven(cellOf(context, 'given', 'd'), context).blanks).toEqual(['7,52 mm', '7,50 mm']);
  });

  it('keeps one value as it was typed, in its own unit whatever the system', async () => {
    const context = await contextOf(given('F', '310 ± 2 N', 'N'), 'US customary');
    expect(presentGiven(cellOf(context, 'given', 'F'), context)).toMatchObject({ blanks: ['310 ± 2 N'], result: { unit: 'N', uncertainty: '2.0' } });
  });

  it('shows what a choice filled in and where it comes from', async () => {
    const context = await contextOf(fenced('choice', 'id: material', 'chosen: s', 'options:', '  - key: s', '    label: some steel', '    sets:', '      S_ut: 630 MPa')
      + fenced('given', 'symbol: S_ut', 'unit: MPa'));
    expect(presentGiven(cellOf(context, 'given', 'S_ut'), context)).toMatchObject({ blanks: ['630 MPa'], filledBy: 'some steel' });
    expect(presentChoice(cellOf(context, 'choice', 'material'), context)).toMatchObject({
      chosenLabel: 'some steel',
      settings: [{ symbol: 'S_ut', text: 'S_ut = 630 MPa', tex: expect.stringContaining('630\\,\\mathrm{MPa}') }],
    });
  });

  it('leaves an empty blank empty', async () => {
    const context = await contextOf(fenced('given', 'symbol: F', 'unit: N'));
    expect(presentGiven(cellOf(context, 'given', 'F'), context)).toMatchObject({ blanks: [], unit: 'N', problems: [], result: { kind: 'range', word: 'open' } });
  });
});

describe('forms', () => {
  it('counts what is open on a checklist and stamps what is done', async () => {
    const context = await contextOf(fenced('checklist', 'id: safety', 'items:', '  - Guard closed', '  - text: Power isolated', '    done: 2026-11-20T09:12:30+01:00'));
    expect(presentChecklist(cellOf(context, 'checklist', 'safety'), context)).toMatchObject({
      openCount: 1, items: [{ text: 'Guard closed', done: false }, { text: 'Power isolated', done: true, time: '2026-11-20 09:12' }],
    });
  });

  it('gathers what wants looking at', async () => {
    const context = await contextOf(
      fenced('checklist', 'id: safety', 'items:', '  - Guard closed') + given('x', '2', '1') + step('y', 'x + missing', '1', 'label: Sum')
      + fenced('check', 'id: small', 'label: Small?', 'condition: x < 1', 'holds: yes', 'otherwise: no'),
    );
    expect(presentAttention(context)).toEqual({
      openItems: 1, items: 1, problems: [{ cellId: 'y', label: 'Sum' }], failedChecks: [{ cellId: 'small', label: 'Small?' }], unwritten: [],
    });
  });

  it('lays the front matter out as a form, switches left out', async () => {
    const { document } = await contextOf('---\ntitle: Bending\nunits: US customary\nown_working: true\ndate: 2026-11-20\nteam: T4\ncollet_size: 12\nbatch:\n---\n');
    expect(presentTitleBlock(document)).toEqual({
      title: 'Bending',
      fields: [
        { key: 'team', label: 'Team', value: 'T4', isInvented: false }, { key: 'date', label: 'Date', value: '2026-11-20', isInvented: false },
        { key: 'batch', label: 'Material batch', value: '', isInvented: false }, { key: 'collet_size', label: 'collet size', value: '12', isInvented: false },
      ],
    });
    expect(unitSystemOf(document)).toBe('US customary');
  });
});

describe('numberSheet', () => {
  it('numbers sections as a textbook does', async () => {
    const { document } = await contextOf(
      '# Title\n\n### Before any\n\n## First\n\n### Sub\n\n' + step('x', '1', '1') + '\n### Another\n\n## Second\n\n### Sub again\n\n#### Deep\n',
    );
    expect([...numberSheet(document).sections.values()].flat()).toEqual(['', '', '1', '1.1', '1.2', '2', '2.1', '']);
  });

  it('takes no heading from code', async () => {
    const { document } = await contextOf('    ## not a heading\n\n## One\n');
    expect([...numberSheet(document).sections.values()].flat()).toEqual(['1']);
  });
});

describe('liveText', () => {
  it('puts values in with their unit, with the uncertainty where wanted', async () => {
    const context = await contextOf(given('sigma_a', '312.43 ± 2.13 MPa', 'MPa'));
    expect(liveText('Stress {=sigma_a}.', context)).toBe('Stress 312.4\u00a0MPa.');
    expect(liveText('Stress {=sigma_a}.', context, { uncertainty: true })).toBe('Stress 312.4 ± 2.1 MPa.');
  });

  it('says in the place of a value that there is none, and which', async () => {
    const context = await contextOf(fenced('given', 'symbol: x', 'unit: mm'));
    expect(liveText('{=x}, {=y}, {=constructor}, {= z}, {=}, {=a{b}}', context)).toBe(
      '⟨x: open⟩, ⟨y: not on this sheet⟩, ⟨constructor: not on this sheet⟩, ⟨ z: not on this sheet⟩, {=}, {=a{b}}',
    );
  });
});

import { describe, expect, it } from 'vitest';
import { predictionNow } from '../../src/graph/index.ts';
import { presentGlance, presentRecord, presentRunning, recordCsv, recordRow, renderSheet, type WholeContext } from '../../src/report/index.ts';
import { applyEdit, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { cellOf, contextOf, fenced, given } from './sheet-at.ts';

const START = Date.parse('2026-11-20T09:00:00+01:00');
const record = (...lines: readonly string[]): string => fenced(
  'record', 'id: test', 'watches:', '  life: N_f', '  speed: n', '  log_life: m', '  s: s', '  stress: S', 'symbols:', '  life: N_p', '  stress: S_p', ...lines,
);
const givens = (speed = '3000 rev/min'): string =>
  [given('N_f', '100000 cycles', 'cycles'), given('n', speed, 'rev/min'), given('m', '5', '1'), given('s', '0.2', '1'), given('S', '300 MPa', 'MPa')].join('\n');
const FROZEN = ['frozen:', '  N_f: 100000 cycles', '  n: 3000 rev/min', '  m: "5"', '  s: "0.2"', '  S: 300 MPa'];
const STARTED = ['started: 2026-11-20T09:00:00+01:00', ...FROZEN];
const say = (time: number): string => String(Math.round((time - START) / 1000));

async function running(seconds: number, ...lines: readonly string[]): Promise<ReturnType<typeof presentRunning>> {
  const context = await contextOf(givens() + record(...STARTED, ...lines));
  return presentRunning(cellOf(context, 'record', 'test'), context, { now: START + seconds * 1000, say });
}

describe('the running clock', () => {
  it('follows from the stamps, however long the device slept', async () => {
    const { facts, outlook } = await running(1000);
    expect(facts.map(({ text }) => text)).toEqual(['16 min 40 s', '50\u202f000 cycles, from speed and time']);
    // Median and ends of lg N ~ N(5, 0.2) cut off at 50 000 cycles, computed with scipy.stats.norm; 50 cycles a second.
    // Φ((lg 50 000 − 5)/0.2) = 0.066143; the median of those left is 103 895.94 cycles, at 2077.9 s.
    expect(outlook[0]).toContain('half chance that it breaks before 2078;');
    expect(outlook[1]).toBe('By now 6.6 % of such specimens were expected to have broken.');
  });

  it('says how many break at all where some run out', async () => {
    const kept = [...FROZEN, '  P: "0.6"'];
    const context = await contextOf(`${givens()}\n${given('P', '0.6', '1')}${record('started: 2026-11-20T09:00:00+01:00', ...kept).replace('  log_life: m', '  log_life: m\n  breaks: P')}`);
    const at = (seconds: number): readonly string[] => presentRunning(cellOf(context, 'record', 'test'), context, { now: START + seconds * 1000, say }).outlook;
    // (0.6 − 0.066143)/(1 − 0.066143) = 0.57167; the quantile at 0.066143 + (0.6 − 0.066143)/2 of lg N ~ N(5, 0.2) is 81 980.47 cycles (scipy.stats.norm), at 1640 s.
    expect(at(1000)[0]).toBe('Of such specimens 60 % were expected to break at all; the others run out.');
    expect(at(1000)[1]).toMatch(/^Given that it still runs, the chance that it breaks is 57 %; if it does, there is a half chance that it breaks before 1640, and one of 95 % between/);
    expect(at(4000)[1]).toBe('Given that it still runs, the chance that it breaks is less than 0.1 %.');
  });

  it('counts from the last counter reading, and not while it pauses', async () => {
    const noted = ['counter_start: 10', 'counter_multiplier: 100', 'readings:', '  - at: 2026-11-20T09:10:00+01:00', '    counter: 300', '    speed: 2900',
      'pauses:', '  - from: 2026-11-20T09:10:00+01:00', '    to: 2026-11-20T09:20:00+01:00'];
    const { facts } = await running(1260, ...noted);
    expect(facts.map(({ text }) => text)).toEqual(['11 min 00 s', '31\u202f900 cycles, from the last counter reading and the speed since']);
  });

  it('says so where the clock was set back', async () => {
    const { facts, problems } = await running(-60);
    expect(facts).toEqual([]);
    expect(problems.map(({ code }) => code)).toEqual(['record-clock']);
  });
});

describe('a running test in a few words', () => {
  const SHORT = (context: WholeContext, seconds: number, isWithheld = false): ReturnType<typeof presentGlance> =>
    presentGlance(cellOf(context, 'record', 'test'), isWithheld, { now: START + seconds * 1000, say });

  it('says time, both counts and the expected end, days over', async () => {
    const noted = ['counter_start: 10', 'counter_multiplier: 100', 'readings:', '  - at: 2026-11-20T09:10:00+01:00', '    counter: 310'];
    const context = await contextOf(givens() + record(...STARTED, ...noted));
    // The end is that of the clock in the record, which is checked above.
    expect(SHORT(context, 1000)).toEqual({ phase: 'running', facts: ['16 min 40 s', '50\u202f000 cycles by speed', '30\u202f000 cycles by counter at 600', 'even chance of fracture by 2078'] });
    expect(SHORT(context, 1000, true).facts).toHaveLength(3);
    expect(SHORT(context, 2.5 * 86_400).facts.slice(0, 2)).toEqual(['2 d 12 h 00 min', '10\u202f800\u202f000 cycles by speed']);
  });

  it('is shorter while nobody is there: since when, and the expected end or else one count', async () => {
    const left = ['counter_start: 10', 'counter_multiplier: 100', 'readings:', '  - at: 2026-11-20T09:10:00+01:00', '    counter: 310', '  - at: 2026-11-20T09:11:00+01:00', '    left: 2 of 6'];
    const context = await contextOf(givens() + record(...STARTED, ...left));
    expect(SHORT(context, 1000)).toEqual({ phase: 'running', facts: ['16 min 40 s', 'alone since 660', 'even chance of fracture by 2078'] });
    expect(SHORT(context, 1000, true).facts).toEqual(['16 min 40 s', 'alone since 660', '30\u202f000 cycles at 600']);
  });

  it('says no end where hardly any still break, and its chance where some run out', async () => {
    const kept = [...FROZEN, '  P: "0.6"'];
    const context = await contextOf(`${givens()}\n${given('P', '0.6', '1')}${record('started: 2026-11-20T09:00:00+01:00', ...kept).replace('  log_life: m', '  log_life: m\n  breaks: P')}`);
    expect(SHORT(context, 1000).facts.at(-1)).toBe('if it breaks (57 %), even chance by 1640');
    expect(SHORT(context, 4000).facts.at(-1)).toBe('likely to run out');
  });

  it('says what is to be looked at, and nothing once the test has ended', async () => {
    const of = async (...lines: readonly string[]): Promise<ReturnType<typeof presentGlance>> => SHORT(await contextOf(givens() + record(...STARTED, ...lines)), 1000);
    expect((await of('ended: 2026-11-20T09:10:00+01:00')).phase).toBe('over');
    expect((await of('counter_start: ten')).trouble).toMatch(/can’t be read/);
    expect((await of('counter_start: 300', 'readings:', '  - at: 2026-11-20T09:10:00+01:00', '    counter: 10')).trouble).toBe('A counter reading is asked about.');
    expect((await of('pauses:', '  - from: 2026-11-20T10:00:00+01:00')).trouble).toBe('The clock says 1000, but a stamp says 3600.');
  });
});

describe('a record that is presented', () => {
  it('lists what was changed since the start, and nothing before', async () => {
    const before = await contextOf(givens() + record());
    expect(presentRecord(cellOf(before, 'record', 'test'), before).changed).toEqual([]);
    const after = await contextOf(givens('2900 rev/min') + record(...STARTED));
    expect(presentRecord(cellOf(after, 'record', 'test'), after).changed).toEqual(['n: 3000 rev/min at the start, 2900 rev/min now.']);
  });

  it('open items are plain before the start, and ask for nothing', async () => {
    const context = await contextOf(fenced('checklist', 'items:', '  - Guard closed', '  - text: Padded', '    done: 2026-11-20T08:00:00+01:00') + givens() + record());
    expect(presentRecord(cellOf(context, 'record', 'test'), context).advice).toMatch(/^1 of 2 checklist items are open\..*The sheet only advises/);
    expect(renderSheet(context)).toContain('1 of 2 checklist items are open.');
  });

  it('lists below the record are for later, and the head counts them all', async () => {
    const list = (id: string): string => fenced('checklist', `id: ${id}`, 'items:', '  - One', '  - Two');
    const context = await contextOf(list('before') + givens() + record() + list('after'));
    expect(presentRecord(cellOf(context, 'record', 'test'), context).advice).toMatch(/^2 of 2 checklist items are open\./);
    expect(renderSheet(context)).toContain('4 of 4 checklist items are open.');
  });

  it.each([['not started', ''], ['running', 'started: 2026-11-27T10:00:00+01:00\n'], ['ended', 'started: 2026-11-27T10:00:00+01:00\nended: 2026-11-27T12:00:00+01:00\noutcome: fracture\n']])(
    'what the reader still has to work out stands nowhere in it: %s', async (_phase, stamps) => {
      const sheet = parseSheet(shipped('alternating-bending'));
      const { states } = await contextOf(serialiseSheet(sheet));
      const cell = sheet.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'record' ? [block.cell] : []))[0];
      if (cell === undefined) throw new Error('no record');
      const kept = applyEdit(sheet, { do: 'set entries', cellId: 'test', key: 'frozen', entries: predictionNow(cell, sheet, states) });
      if (!kept.ok) throw new Error(kept.problem.what);
      const text = serialiseSheet(stamps === '' ? sheet : kept.value).replace('own_working: false', 'own_working: true').replace('id: test\n', `id: test\n${stamps}`);
      const asked = await contextOf(text);
      // The median life, 2.48·10⁴ cycles, its interval and the equivalent stress, by the sheet without asking.
      const told = (report: string): string[] => [...report.replace(/<template[\s\S]*?<\/template>|<[^>]*>/g, ' ').replace(/[\u202f\u00a0\s]/g, ' ').matchAll(/2\.48|24 8\d\d|8950|68 900|431\.4/g)].map(([number]) => number);
      expect(told(renderSheet(asked))).toEqual([]);
      expect(told(renderSheet({ ...asked, reveal: true })).length).toBeGreaterThan(2);
    });

  it('after the end: counter against clock, with what may be wrong, and the row of the specimen', async () => {
    const ended = ['ended: 2026-11-20T09:30:00+01:00', 'counter_start: 100', 'counter_end: 9100', 'counter_multiplier: 1', 'outcome: fracture', 'why: at a "mark", left'];
    const context = await contextOf(`---\nspecimen: PS-07\nteam: T4\n---\n${givens()}${record(...STARTED, ...ended)}`);
    const cell = cellOf(context, 'record', 'test');
    const { verdict, counts } = presentRecord(cell, context);
    expect(counts.map(({ text }) => text.replaceAll('\u202f', ' '))).toEqual(['30 min 00 s', '9000 cycles ± 0.41', '90 000 cycles ± 20, from the speed typed before the start']);
    expect(verdict?.agree).toBe(false);
    expect(verdict?.sentence).toContain('what does one unit of the counter stand for?');
    const row = recordRow(cell, context);
    expect(row === undefined ? '' : recordCsv(row)).toBe('specimen,team,machine,S [MPa],u_S [MPa],N,outcome,date,place,note\nPS-07,T4,,300,0,9000,fracture,2026-11-20,,"at a ""mark"", left"\n');
    expect(renderSheet(context)).toContain('Counter and clock differ');
  });

  it('the row carries what the sheet says of the specimen: symbols as they stand, a choice by its words, the kept stress with its uncertainty', async () => {
    const choice = fenced('choice', 'id: material', 'label: Material', 'chosen: cold', 'options:', '  - key: cold', '    label: steel, cold-drawn', '    sets: {}');
    const more = ['ended: 2026-11-20T09:30:00+01:00', 'counter_start: 0', 'counter_end: 90000', 'outcome: fracture', 'row:', '  group: choice material', '  d: d', '  speed: n', '  S_break: S_x'];
    const frozen = STARTED.map((line) => (line === '  S: 300 MPa' ? '  S: 300 ± 1.5 MPa' : line));
    const sheet = `---\nspecimen: PS-07\nteam: T4\nmachine: bench 2\n---\n${givens('2900 rev/min').replace('300 MPa', '250 MPa')}\n${given('d', '7.52 mm', 'mm')}\n${choice}`;
    const row = async (lines: readonly string[]): Promise<string> => {
      const context = await contextOf(`${sheet}${given('S_x', '', 'MPa')}${record(...frozen, ...lines)}`);
      const found = recordRow(cellOf(context, 'record', 'test'), context);
      return found === undefined ? 'no row' : recordCsv(found);
    };
    expect(await row(more)).toBe(
      'specimen,team,machine,S [MPa],u_S [MPa],N,outcome,group,d [mm],speed [rev/min],S_break,date,place,note\nPS-07,T4,bench 2,300,1.5,90000,fracture,"steel, cold-drawn",7.52,3000,,2026-11-20,,\n');
    // As it was at the start, whatever is typed later; where it broke is known only then.
    const kept = ['  d: 7.52 ± 0.01 mm', '  S_x: 111 MPa'];
    const later = await contextOf(`${sheet.replace('7.52 mm', '7.00 mm')}${given('S_x', '280 MPa', 'MPa')}${record(...frozen, ...kept, ...more)}`);
    const asKept = recordRow(cellOf(later, 'record', 'test'), later);
    expect(asKept?.get('d')).toEqual({ text: '7.52', unit: 'mm' });
    expect(asKept?.get('S_break')).toEqual({ text: '280', unit: 'MPa' });
    // What was noted of surface and surroundings goes along, in row and report.
    const noted = await contextOf(`${sheet}${given('S_x', '', 'MPa')}${record(...frozen, ...more, 'roughness: Ra 0.2 µm', 'humidity: 45 %')}`);
    const carried = recordRow(cellOf(noted, 'record', 'test'), noted);
    expect(carried?.get('roughness')).toEqual({ text: 'Ra 0.2 µm' });
    expect(carried?.has('hardness')).toBe(false);
    expect(renderSheet(noted)).toContain('Humidity, or medium');
    // As long as anything in it is of the invented example, whoever pools it is told.
    const noteOf = async (text: string): Promise<string | undefined> => {
      const context = await contextOf(text);
      return recordRow(cellOf(context, 'record', 'test'), context)?.get('note')?.text;
    };
    const whole = `${sheet}${given('S_x', '', 'MPa')}${record(...frozen, ...more)}`;
    expect(await noteOf(whole)).toBe('');
    expect(await noteOf(whole.replace('symbol: d\n', 'symbol: d\norigin: example\n'))).toBe('rests on values of an invented example');
    // Another stress than the watched one is taken as it stands.
    expect(await row([...more, '  S: d'])).toContain('S [mm],u_S [mm]');
  });
});

/**
 * The lever sheet held against statics. Hand-worked cases: the law of the lever and the lever safety valve as statics
 * textbooks set them (figures from memory, worked by hand beside each). Random set-ups: equilibrium of the beam solved
 * apart, with moments about the hanger instead of the fulcrum.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { presentFindings, type WholeContext } from '../../src/report/index.ts';
import { applyEdit, enterText, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { cellOf, contextOf } from '../report/sheet-at.ts';
import { neutral, shipped } from '../shipped.ts';
import { holds, numberOf, solved, uncertaintyOf } from './solved.ts';

const text = shipped('loading-lever');

/** Weights typed in newtons, none there until said. */
const BARE = { weighed: 'newtons', P_1: '0 N', P_2: '0 N', P_3: '0 N', P_b: '0 N', P_c: '0 N', P_h: '0 N' };

describe('hand-worked levers', () => {
  it('law of the lever: 10 lbf at 12 in holds 60 lbf at 2 in', async () => {
    const states = await solved({ ...BARE, P_1: '10 lbf', x_1: '12 in', h: '2 in' }, text);
    expect(numberOf(states, 'F') / 4.4482216152605).toBeCloseTo(60, 12);
    // The fulcrum holds the beam down with what the hanger pulls more than the weight: 10 - 60 = -50 lbf.
    expect(numberOf(states, 'R_O') / 4.4482216152605).toBeCloseTo(-50, 12);
  });

  it('lever safety valve: a uniform lever of 40 N, 800 mm long, weight 150 N at 700 mm, valve at 80 mm', async () => {
    // 150·700 + 40·400 = 121 000 N·mm; /80 mm = 1512.5 N.
    const states = await solved({ ...BARE, P_1: '150 N', x_1: '700 mm', P_b: '40 N', g_b: '400 mm', h: '80 mm' }, text);
    expect(numberOf(states, 'F')).toBeCloseTo(1512.5, 9);
  });

  it('three weights, own weight, counterweight, fixture', async () => {
    // 20·400 + 5·300 + 1·100 + 8·150 - 10·120 = 9600 N·mm; /50 mm = 192 N; with 6 N of housings 198 N; empty: 0/50 + 6 N.
    const states = await solved({
      weighed: 'newtons', P_1: '20 N', x_1: '400 mm', P_2: '5 N', x_2: '300 mm', P_3: '1 N', x_3: '100 mm', P_b: '8 N', g_b: '150 mm',
      P_c: '10 N', h_c: '120 mm', h: '50 mm', P_h: '6 N',
    }, text);
    expect(numberOf(states, 'F')).toBeCloseTo(192, 9);
    expect(numberOf(states, 'W')).toBeCloseTo(198, 9);
    expect(numberOf(states, 'F_e')).toBeCloseTo(6, 9);
  });

  it('a wanted stress asks for the load W = 2M/a with M = pi d^3 sigma/32', async () => {
    // d = 8 mm, a = 100 mm, 300 MPa: M = pi·512·300/32 = 15 079.6 N·mm, W = 301.593 N.
    const states = await solved({ wanted: 'stress', sigma_t: '300 MPa', d: '8 mm', a: '100 mm' }, text);
    expect(numberOf(states, 'F_w')).toBeCloseTo(301.593, 3);
  });
});

const length = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
const setUps = fc.record({
  P_1: length(1, 200), P_2: length(1, 80), P_3: length(0.2, 20), P_b: length(0, 40), P_c: length(0, 60), P_h: length(0, 60),
  x_1: length(0.02, 0.9), x_2: length(0.02, 0.9), x_3: length(0.02, 0.9), g_b: length(-0.2, 0.6), h_c: length(0.02, 0.4), h: length(0.02, 0.15),
});
const UNITS: Record<string, string> = { x: 'm', g: 'm', h: 'm', P: 'N' };

function settings(values: Readonly<Record<string, number>>): Record<string, string> {
  return { weighed: 'newtons', ...Object.fromEntries(Object.entries(values).map(([symbol, value]) => [symbol, `${value} ${UNITS[symbol.charAt(0)]}`])) };
}

describe('weights from masses', () => {
  it('weigh what the same weights in newtons do, and share the error of gravity', async () => {
    const masses = { m_1: '4 ± 0 kg', m_2: '1 ± 0 kg', m_3: '0.2 ± 0 kg', m_b: '0.9 ± 0 kg', m_c: '0 ± 0 kg', m_h: '1.4 ± 0 kg', g: '9.8 ± 0.0098 m/s^2' };
    const places = { x_1: '390 ± 0 mm', x_2: '250 ± 0 mm', x_3: '150 ± 0 mm', g_b: '180 ± 0 mm', h: '60 ± 0 mm' };
    const [byMass, byWeight] = await Promise.all([
      solved({ ...masses, ...places }, text),
      solved({ weighed: 'newtons', P_1: '39.2 N', P_2: '9.8 N', P_3: '1.96 N', P_b: '8.82 N', P_c: '0 N', P_h: '13.72 N', ...places }, text),
    ]);
    expect(numberOf(byMass, 'W') / numberOf(byWeight, 'W')).toBeCloseTo(1, 12);
    // Every weight is as much off as g is: 0.1 % of the whole, not the root of the squares.
    expect(uncertaintyOf(byMass, 'W') / numberOf(byMass, 'W')).toBeCloseTo(1e-3, 9);
  });

  it('the formula for gravity in the note gives what is published: 9.780 at the equator, 9.806 at 45°, 9.832 at the poles', async () => {
    // International gravity formula 1967: 9.780318 (1 + 0.0053024 sin²φ − 0.0000059 sin²2φ) m/s², from memory; three digits are in every handbook.
    const note = /9\.7803 m\/s² \(1 \+ (0\.0053) sin² of the latitude\)/.exec(text);
    const gravity = (latitude: number): number => 9.7803 * (1 + Number(note?.[1]) * Math.sin((latitude * Math.PI) / 180) ** 2);
    expect([0, 45, 90].map((latitude) => Number(gravity(latitude).toFixed(3)))).toEqual([9.78, 9.806, 9.832]);
  });
});

describe('random set-ups', () => {
  it('are in equilibrium: the fulcrum reaction from moments about the hanger', async () => {
    await fc.assert(fc.asyncProperty(setUps, async (v) => {
      const states = await solved(settings(v), text);
      const forces = [[v.P_1, v.x_1], [v.P_2, v.x_2], [v.P_3, v.x_3], [v.P_b, v.g_b], [v.P_c, -v.h_c]] as const;
      const reaction = forces.reduce((sum, [weight, place]) => sum + (weight * (v.h - place)) / v.h, 0);
      const size = forces.reduce((sum, [weight, place]) => sum + weight * (1 + Math.abs(place) / v.h), 0);
      expect(Math.abs(numberOf(states, 'R_O') - reaction)).toBeLessThan(1e-12 * size);
    }), { numRuns: 25 });
  });

  it.each(['first', 'second', 'third'])('forward and inverse agree: the %s weight, put where the sheet says, gives the wanted load', async (move) => {
    const wanted = length(20, 3000);
    await fc.assert(fc.asyncProperty(setUps, wanted, async (v, load) => {
      const before = await solved({ ...settings(v), move, wanted: 'load', F_t: `${load} N` }, text);
      const place = numberOf(before, 'x_w');
      fc.pre(place >= 0);
      const symbol = { first: 'x_1', second: 'x_2', third: 'x_3' }[move] ?? '';
      const after = await solved({ ...settings(v), move, F_t: `${load} N`, [symbol]: `${place} m` }, text);
      expect(Math.abs(numberOf(after, 'W') / load - 1)).toBeLessThan(1e-9);
      expect(Math.abs(numberOf(after, 'x_w') / place - 1)).toBeLessThan(1e-9);
    }), { numRuns: 15 });
  });

  it('the same for a wanted stress', async () => {
    await fc.assert(fc.asyncProperty(setUps, length(80, 600), length(5, 12), async (v, stress, d) => {
      const set = { ...settings(v), wanted: 'stress', sigma_t: `${stress} MPa`, d: `${d} mm`, a: '110 mm' };
      const place = numberOf(await solved(set, text), 'x_w');
      fc.pre(place >= 0);
      const after = await solved({ ...set, x_1: `${place} m` }, text);
      expect(Math.abs(numberOf(after, 'sigma_a') / (stress * 1e6) - 1)).toBeLessThan(1e-9);
    }), { numRuns: 15 });
  });
});

describe('what the sheet says', () => {
  it('has no cell in error as delivered, and every check holds', async () => {
    const document = parseSheet(text);
    expect(serialiseSheet(document)).toBe(text);
    const graph = createSheetGraph(document);
    const states = await graph.settled();
    graph.dispose();
    for (const { id } of document.blocks) {
      expect(states.cell(id)?.problems ?? [], id).toEqual([]);
      expect(states.cell(id)?.check?.holds ?? true, id).toBe(true);
    }
  });

  it('not within travel: says so and gives the nearest place and its load', async () => {
    const states = await solved({ ...BARE, P_1: '10 N', x_1: '200 mm', h: '50 mm', F_t: '120 N', x_min: '100 mm', x_max: '400 mm' }, text);
    // 120 N·50 mm/10 N = 600 mm; at 400 mm the load is 80 N.
    expect(holds(states, 'reachable')).toBe(false);
    expect(states.cell('reachable')?.check?.message).toContain('Not within travel');
    expect(numberOf(states, 'x_w')).toBeCloseTo(0.6, 12);
    expect(numberOf(states, 'x_n')).toBeCloseTo(0.4, 12);
    expect(numberOf(states, 'W_n')).toBeCloseTo(80, 9);
  });

  it('the ends of the travel in the wrong order', async () => {
    expect(holds(await solved({ x_min: '450 mm', x_max: '90 mm' }, text), 'travel-ends')).toBe(false);
  });

  it('weights in the wrong order: one would have to pass another', async () => {
    // Second weight at 250 mm, first at 391.5 mm: a fifth of the load asks the first to go inside the second.
    expect(holds(await solved({ F_t: '150 N' }, text), 'way-clear')).toBe(false);
    expect(holds(await solved({ F_t: '150 N', m_2: '0 kg', m_3: '0 kg' }, text), 'way-clear')).toBe(true);
  });

  it('a weight of nothing is not moved anywhere', async () => {
    const states = await solved({ move: 'third', m_3: '0 kg' }, text);
    expect(states.symbol('x_w')).toMatchObject({ status: 'problem', problem: { code: 'not-valid' } });
    expect(numberOf(states, 'W')).toBeGreaterThan(0);
  });

  it('as read against as set: tolerance and uncertainty', async () => {
    const off = await solved({ F_i: '330 N' }, text);
    expect([holds(off, 'read-tolerance'), holds(off, 'read-uncertainty')]).toEqual([false, false]);
  });

  it('sensitivity: one weight moved by 1 mm changes by W_m/h', async () => {
    const at = async (place: string) => numberOf(await solved({ x_1: place }, text), 'W');
    const change = (await at('392 mm')) - (await at('391 mm'));
    expect(change / (numberOf(await solved({}, text), 'k_x') * 1e-3)).toBeCloseTo(1, 9);
  });

  it('the uncertainty of the load is the root of the summed squares, by hand', async () => {
    const exact = { ...BARE, P_1: '10 ± 0.1 N', x_1: '300 ± 1 mm', h: '60 ± 0.3 mm' };
    // F = 50 N; relative: 1 %, 1/3 %, 1/2 %.
    expect(uncertaintyOf(await solved(exact, text), 'F') / 50).toBeCloseTo(Math.hypot(0.01, 1 / 300, 0.005), 9);
  });
});

describe('which weights, and where', () => {
  const told = (context: WholeContext) => presentFindings(cellOf(context, 'fit', 'weights'), context);
  /** The empty sheet with what a team would type, and its weights. */
  async function withOwn(settings: Readonly<Record<string, string>>, rows: string): Promise<WholeContext> {
    let document = parseSheet(neutral('loading-lever'));
    const take = (edited: ReturnType<typeof applyEdit>): void => {
      if (!edited.ok) throw new Error(edited.problem.what);
      document = edited.value;
    };
    for (const [symbol, value] of Object.entries(settings)) take(enterText(document, symbol, value));
    take(applyEdit(document, { do: 'replace rows', cellId: 'owned', text: rows }));
    return contextOf(serialiseSheet(document));
  }
  /** A bare beam of no weight at round figures: g = 10 m/s² makes 12 N·m of 4 kg at 300 mm, 240 N at the hanger's 50 mm. */
  const ROUND = {
    g: '10 ± 0 m/s^2', h: '50 ± 0 mm', m_2: '0 kg', m_3: '0 kg', x_2: '100 mm', x_3: '100 mm', m_b: '0 kg', g_b: '0 mm', m_c: '0 kg', h_c: '0 mm', m_h: '0 kg',
    x_min: '100 mm', x_max: '400 mm', F_t: '240 N', x_e: '0 mm',
  };

  it('from the empty sheet: the load by hand, with its uncertainty from the weights alone', async () => {
    const context = await withOwn(ROUND, 'name,m [kg],u_m [kg],n\nbrass,2,0.01,2\nsteel,1,,1\n');
    // Two of 2 kg stand at 300 mm; one and the 1 kg would need 400 mm, and are two pieces too but lighter.
    expect(told(context).advice).toBe('Put brass + steel at 400 mm from the fulcrum: the specimen then carries 240 N, as wanted.');
    expect(numberOf(context.states, 'F_k')).toBeCloseTo(240, 9);
    // ∂F/∂m = g·x/h = 80 N/kg, times 0.01 kg.
    expect(uncertaintyOf(context.states, 'F_k')).toBeCloseTo(0.8, 9);
    const alike = await withOwn({ ...ROUND, F_t: '320 N' }, 'name,m [kg],u_m [kg],n\nbrass,2,0.01,2\n');
    // Both of 2 kg at 400 mm; weights alike are off alike: 80 N/kg · 0.02 kg.
    expect(told(alike).advice).toBe('Put 2 × brass at 400 mm from the fulcrum: the specimen then carries 320 N, as wanted.');
    expect(uncertaintyOf(alike.states, 'F_k')).toBeCloseTo(1.6, 9);
  });

  it('a place that is set within ± 0.5 mm counts with the weight that stands there', async () => {
    const context = await withOwn({ ...ROUND, x_e: '0.5 mm' }, 'name,m [kg],u_m [kg],n\n,4,,1\n');
    expect(told(context).advice).toBe('Put 4 kg at 300 mm from the fulcrum: the specimen then carries 240 N, as wanted.');
    // 40 N / 50 mm · 0.5 mm / √3 (JCGM 100:2008, 4.3.7: rectangular).
    expect(uncertaintyOf(context.states, 'F_k')).toBeCloseTo((40 / 50) * (0.5 / Math.sqrt(3)), 9);
  });

  it('what is missing is told: too light, too heavy, too much already, notches too far apart', async () => {
    const light = await withOwn(ROUND, 'name,m [kg],u_m [kg],n\n,1,,1\n,1.5,,1\n');
    expect(told(light).advice).toBe('No place within the travel gives 240 N with these weights. It would take at least 3 kg, at the far end, and all of them together are 2.5 kg: add 0.5 kg, or move the other weights outwards. Nearest: put 1 kg + 1.5 kg at 400 mm from the fulcrum; the specimen then carries 200 N, 40 N (17 %) less than wanted.');
    expect(holds(light.states, 'near-enough')).toBe(false);
    const heavy = await withOwn({ ...ROUND, F_t: '300 N' }, 'name,m [kg],u_m [kg],n\n,20,,1\n');
    expect(told(heavy).advice).toContain('It would take at most 15 kg, at the near end, and the lightest is 20 kg: take a lighter one');
    const much = await withOwn({ ...ROUND, m_h: '30 ± 0 kg' }, 'name,m [kg],u_m [kg],n\n,4,,1\n');
    expect(told(much).advice).toContain('What is on the lever without them already gives 300 N: take weights off');
    expect(told(much).advice).toContain('put on none of these weights');
    const notches = await withOwn({ ...ROUND, x_d: '7 mm' }, 'name,m [kg],u_m [kg],n\n,4,,1\n');
    expect(told(notches).advice).toContain('the places are 7 mm apart');
    expect(told(notches).advice).toContain('at 303 mm from the fulcrum; the specimen then carries 242.4 N, 2.4 N (1 %) more than wanted.');
  });

  it('no weights listed, or more combinations than can be gone through: said, and nothing faulty', async () => {
    const none = await withOwn(ROUND, 'name,m [kg],u_m [kg],n\n');
    expect(told(none).sentences.join(' ')).toContain('No weights are listed yet.');
    expect(none.states.cell('weights')?.problems).toEqual([]);
    const many = await withOwn(ROUND, `name,m [kg],u_m [kg],n\n${Array.from({ length: 20 }, (_, i) => `,${i + 1},,1\n`).join('')}`);
    expect(told(many).sentences.join(' ')).toContain('1048576 ways');
  });
});

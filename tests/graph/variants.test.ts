/**
 * Numbers of teams, against what is worked out here by hand: equilibrium of a beam on two supports under two loads (ΣM = 0 about either support), 32M/(πd³) for a
 * round section and 3Ehδ/(2L²) for a cantilever with a set deflection, as in any textbook of statics and strength of materials.
 */
import { describe, expect, it, test } from 'vitest';
import { drawVariant, planVariants, readVariation, teamSeed, type Variant, type VariantPlan } from '../../src/graph/variants/index.ts';
import { parseUnit } from '../../src/core/units/index.ts';
import { parseSheet, variantText } from '../../src/sheet/index.ts';
import { neutral, shipped } from '../shipped.ts';
import { size } from '../sizes.ts';

const asking = (text: string): string => text.replace('own_working: false', 'own_working: true');

function planOf(text: string): VariantPlan {
  const plan = planVariants(parseSheet(text));
  if (!plan.ok) throw new Error(`${plan.problem.what} ${plan.problem.mend}`);
  return plan.value;
}

function variantOf(plan: VariantPlan, seed: number): Variant {
  const drawn = drawVariant(plan, seed);
  if ('misfit' in drawn) throw new Error(JSON.stringify(drawn.misfit));
  return drawn.variant;
}

/** The numbers as they stand in the blanks, read without the sheet. */
function typedIn(entries: Variant['entries']): Readonly<Record<string, number>> {
  return Object.fromEntries(entries.map(({ symbol, text }) => [symbol, Number(/^-?\d+(?:\.\d+)?/.exec(text)?.[0])]));
}

const isMultiple = (number: number, step: number): boolean => Math.abs(number / step - Math.round(number / step)) < 1e-6;
const apart = (a: number, b: number): number => Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b));

describe('a rotating beam for each team', () => {
  const plan = planOf(asking(neutral('rotating-bending')));
  const drawn: Variant['entries'][] = [];
  /** Numbers of the teams of one class, drawn once for all that looks at them. */
  const ofTeam = (i: number): Variant['entries'] => (drawn[i] ??= variantOf(plan, teamSeed('autumn', `team ${i}`)).entries);

  it('keeps to spans, load points, stress and reactions that differ', () => {
    for (let i = 0; i < size(150, 2000); i++) {
      const entries = ofTeam(i);
      const { L = NaN, s_1 = NaN, s_2 = NaN, s_3 = NaN, x_s = NaN, d = NaN, F = NaN, F_0 = NaN } = typedIn(entries);
      expect(Math.abs(L - s_1 - s_2 - s_3)).toBeLessThanOrEqual(0.5 + 1e-9);
      expect([s_1 > 0, s_1 + s_2 < L, x_s > s_1, x_s < s_1 + s_2]).toEqual([true, true, true, true]);
      expect([[s_1, 0.5], [s_2, 0.5], [s_3, 0.5], [L, 0.5], [x_s, 0.5], [d, 0.02], [F, 5], [F_0, 0.5]].filter(([number = 0, step = 1]) => !isMultiple(number, step))).toEqual([]);
      // Half of the load at each point, moments about the right and the left support; L as it was measured.
      const [each, right] = [(F - F_0) / 2, L - s_1 - s_2];
      const [byRight, byLeft] = [(each * (s_2 + s_3) + each * s_3) / L, (each * s_1 + each * (s_1 + s_2)) / L];
      expect(apart(byRight, byLeft)).toBeGreaterThan(0.02);
      expect(right).toBeGreaterThan(0);
      const stress = (32 * (byRight * x_s - each * (x_s - s_1))) / (Math.PI * d ** 3);
      expect(stress).toBeGreaterThan(299);
      expect(stress).toBeLessThan(451);
      expect(entries.map(({ text }) => text).join()).not.toMatch(/\d{8}/);
    }
  });

  it('has no two asked results that one could be taken for the other', () => {
    const asked = ['W', 'F_1', 'R_A', 'R_B'];
    for (let i = 0; i < 40; i++) {
      const { states } = variantOf(plan, i).reckoned;
      const values = asked.map((symbol) => {
        const state = states.symbol(symbol);
        return state?.status === 'value' ? state.estimate.value : Number.NaN;
      });
      const nearest = Math.min(...values.flatMap((a, n) => values.slice(n + 1).map((b) => apart(a, b))));
      expect(nearest).toBeGreaterThan(0.02);
    }
    expect(plan.notes.join()).toContain('F_1 and F_2');
  });

  it('gives the same numbers for the same seed and team, other ones for others', () => {
    const seed = teamSeed('autumn', 'Team  7');
    expect(teamSeed(' autumn ', 'team 7')).toBe(seed);
    expect(variantOf(plan, seed).entries).toEqual(variantOf(planOf(asking(neutral('rotating-bending'))), seed).entries);
    expect(new Set(Array.from({ length: 60 }, (_none, i) => JSON.stringify(ofTeam(i)))).size).toBe(60);
    expect([teamSeed('spring', 'team 7'), teamSeed('autumn', 'team 8')]).not.toContain(seed);
  });

  // Held to what was drawn when this was written: a later page must not give a team other numbers than it has.
  it('gives the numbers that were given before', () => {
    const seed = teamSeed('autumn', 'Team 7');
    expect(variantText(seed, variantOf(plan, seed).entries)).toMatch(/^5F7F-734C-[0-9A-F]{4}$/);
    expect(variantOf(plan, seed).entries.map(({ symbol, text }) => `${symbol} = ${text}`).join(', '))
      .toBe('s_1 = 114.0 mm, s_2 = 235.0 mm, s_3 = 129.0 mm, d = 7.42 mm, F = 260 N, F_0 = 1 N, L = 478.5 mm, x_s = 225.5 mm, F_t = 260 N');
  });
});

test('an alternating strip for each team keeps to its stroke and stress', () => {
  const plan = planOf(asking(shipped('alternating-bending')));
  for (let i = 0; i < size(60, 800); i++) {
    const { z_0 = NaN, z_1 = NaN, z_2 = NaN, L_b = NaN, t = NaN, Delta_set = NaN } = typedIn(variantOf(plan, i).entries);
    expect([z_1 < z_0, z_0 < z_2]).toEqual([true, true]);
    expect(Math.abs(z_2 - z_1 - Delta_set)).toBeLessThanOrEqual(0.05 + 1e-9);
    expect(Math.abs((z_1 + z_2) / 2 - z_0)).toBeLessThanOrEqual(0.15 + 1e-9);
    // E of the steel that the example takes: 205 GPa.
    const stress = (3 * 205_000 * t * ((z_2 - z_1) / 2)) / (2 * L_b ** 2);
    expect(stress).toBeGreaterThan(249);
    expect(stress).toBeLessThan(451);
  }
});

describe('a sheet that can not be drawn', () => {
  const given = (symbol: string, keys: string): string => `\`\`\`given\nsymbol: ${symbol}\nunit: mm\n${keys}\n\`\`\`\n`;
  const told = (text: string): string => {
    const plan = planVariants(parseSheet(text));
    return plan.ok ? 'planned' : `${plan.problem.what} ${plan.problem.mend}`;
  };

  it('says which condition failed how often', () => {
    const text = `${given('a', 'varies: 10 mm .. 20 mm step 1 mm')}${given('b', 'varies: 10 mm .. 20 mm step 1 mm')}\`\`\`step\nsymbol: c\nformula: a + b\nunit: mm\nwanted: 90 mm .. 95 mm\n\`\`\`\n\`\`\`check\nid: k\nlabel: Is a the longer one?\ncondition: a > b\nholds: yes\notherwise: no\nwanted: true\n\`\`\`\n`;
    const drawn = drawVariant(planOf(text), 1);
    expect('misfit' in drawn && drawn.misfit.tries).toBe(2000);
    const failed = 'misfit' in drawn ? drawn.misfit.failed : [];
    expect(failed.map(({ words }) => words)).toEqual(['c between 90 mm and 95 mm', '“Is a the longer one?” holds']);
    expect(failed[0]?.times).toBe(2000);
    // a > b in 55 of 121 pairs.
    expect(Math.abs((failed[1]?.times ?? 0) / 2000 - 66 / 121)).toBeLessThan(0.05);
  });

  it('says what is missing', () => {
    expect(told(given('a', 'value: 3 mm'))).toContain('Nothing in this sheet varies');
    expect(told(`${given('a', 'varies: 1 mm .. 2 mm step 1 mm')}${given('b', '')}\`\`\`step\nsymbol: c\nformula: a + b\nunit: mm\nwanted: 1 mm .. 2 mm\n\`\`\`\n`)).toContain('it waits for b');
    expect(told(given('a', 'varies: 1 mm .. 2 mm'))).toContain('a: What varies has no step.');
    expect(told(given('a', 'varies: b step 1 mm') + given('b', 'varies: a step 1 mm'))).toContain('follow from one another');
    expect(told(given('a', 'varies: q + 1*unit(mm) step 1 mm'))).toContain('What a follows from has no value');
  });

  it('refuses what follows in another dimension', () => {
    expect(told(given('a', 'varies: b^2 step 1 mm') + given('b', 'varies: 1 mm .. 9 mm step 1 mm'))).toContain('an area');
  });
});

describe('what varies', () => {
  const mm = parseUnit('mm');
  const read = (text: string): unknown => {
    const variation = mm.ok ? readVariation(text, mm.value) : mm;
    return variation.ok ? variation.value : variation.problem.what;
  };

  test.each([
    ['1 mm .. 2 mm', 'What varies has no step.'], ['1 .. 2 step 0', 'The step of what varies has to be more than nothing.'], ['1 .. 2 step 3', 'The step of what varies does not fit into its range, so that there is one number at most.'],
    ['2 .. 1 step 0.1', 'The step of what varies does not fit into its range, so that there is one number at most.'], ['0 .. 1 step 1e-7', 'What varies has more than 1 million numbers.'],
    ['1 or 2 step 1', 'Numbers to choose from take no step.'], ['1 .. 2 step 1 kg', '1 kg is a mass; this blank takes a length.'], ['1 .. 2 step 1/3', 'The step of what varies is no decimal fraction in its unit.'],
    ['1 .. 2 step 1 step 1', 'What varies has two steps.'],
  ])('%s', (text, what) => expect(read(text)).toBe(what));

  it('reads ranges in any unit of the kind, decimal commas and fractions', () => {
    expect(read('1 in .. 2 in step 1/8 in')).toMatchObject({ kind: 'range', count: 9, scale: { step: 0.125, decimals: 3 } });
    expect(read('1 .. 2 in step 1/8 in')).toBe('Of what varies some numbers have a unit and others none.');
    expect(read('1,5 mm .. 2,5 mm step 0,5 mm')).toMatchObject({ kind: 'range', count: 3, scale: { low: 1.5, decimals: 1 } });
    expect(read('a ± 1 cm step 2 mm')).toMatchObject({ kind: 'follows', spread: 5 });
    expect(read('1 mm or 2 cm')).toMatchObject({ kind: 'list', quantities: [{ text: '1 mm', value: 0.001 }, { text: '2 cm', value: 0.02 }] });
  });
});

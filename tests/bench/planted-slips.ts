/** Slips as students make them, each worked out by hand in the numbers of the sheet's units. Common practice, no published source. */
export interface Planted {
  readonly sheet: 'rotating-bending' | 'alternating-bending';
  readonly step: string;
  readonly what: string;
  /** What comes out, as a number in the unit of the step. */
  readonly wrong: (v: (symbol: string) => number) => number;
  /** Names of explanations that say just this. */
  readonly is: readonly string[];
}

type Row = readonly [step: string, what: string, wrong: Planted['wrong'], ...is: readonly string[]];

const of = (sheet: Planted['sheet'], rows: readonly Row[]): readonly Planted[] => rows.map(([step, what, wrong, ...is]) => ({ sheet, step, what, wrong, is }));

/** Steps asked for, from the load to the life. */
export const ASKED = {
  'rotating-bending': ['W', 'F_1', 'F_2', 'R_A', 'M_s', 'I', 'c', 'sigma_a', 'S_e0', 'S_e', 'B', 'A', 'N_f'],
  'alternating-bending': ['Delta', 'delta_a', 'delta_m', 'I', 'c', 'k_P', 'P_a', 'P_m', 'M_a', 'M_m', 'sigma_a', 'sigma_m', 'S_e0', 'S_e', 'sigma_ar', 'B', 'A', 'N_sigma'],
} as const;

const { PI, log10 } = Math;

/** The set that the search was made with. */
export const PLANTED: readonly Planted[] = [
  ...of('rotating-bending', [
    ['W', 'the zero reading added', (v) => v('F') + v('F_0'), 'sign inside'],
    ['W', 'in lbf', (v) => (v('F') - v('F_0')) / 4.4482216152605, 'unit', 'listed F.pounds'],
    ['W', 'in kN, written as N', (v) => (v('F') - v('F_0')) / 1000, 'power of ten'],
    ['F_1', 'the share forgotten', (v) => v('W'), 'left out', 'factor', 'times k_F'],
    ['F_1', 'halved twice', (v) => v('W') / 4, 'factor', 'times W', 'times k_F', 'power'],
    ['R_A', 'the arm l_2 twice', (v) => (v('F_1') * (2 * v('l_2') + v('l_3')) + v('F_2') * v('l_3')) / v('l_L'), 'times l_2'],
    ['R_A', 'l_1 taken for l_3', (v) => (v('F_1') * (v('l_2') + v('l_1')) + v('F_2') * v('l_1')) / v('l_L'), 'another symbol l_3 for l_1', 'another symbol l_3 for s_1'],
    ['R_A', 'the second load forgotten', (v) => v('F_1') * (v('l_2') + v('l_3')) / v('l_L'), 'left out'],
    ['R_A', 'the first load forgotten', (v) => v('F_2') * v('l_3') / v('l_L'), 'left out'],
    ['R_A', 'l_2 forgotten in the first arm', (v) => (v('F_1') * v('l_3') + v('F_2') * v('l_3')) / v('l_L'), 'left out'],
    ['R_A', 'sign of the second load', (v) => (v('F_1') * (v('l_2') + v('l_3')) - v('F_2') * v('l_3')) / v('l_L'), 'sign inside'],
    ['R_A', 'not divided by the span', (v) => v('F_1') * (v('l_2') + v('l_3')) + v('F_2') * v('l_3'), 'left out'],
    ['M_s', 'the arm s_1 left out at the first load', (v) => (v('R_A') * v('x_s') - v('F_1') * v('x_s')) / 1000, 'left out', 'listed M_s.section'],
    ['M_s', 'the load at the first point forgotten', (v) => v('R_A') * v('x_s') / 1000, 'left out', 'listed M_s.inner-load'],
    ['M_s', 'sign of the load', (v) => (v('R_A') * v('x_s') + v('F_1') * (v('x_s') - v('l_1'))) / 1000, 'sign inside'],
    ['M_s', 'in N·mm, written as N·m', (v) => v('R_A') * v('x_s') - v('F_1') * (v('x_s') - v('l_1')), 'power of ten'],
    ['M_s', 'times l_1 for x_s', (v) => (v('R_A') * v('l_1') - v('F_1') * (v('x_s') - v('l_1'))) / 1000, 'another symbol x_s for l_1'],
    ['M_s', 'the total load', (v) => v('W') * v('l_1') / 1000, 'listed M_s.total'],
    ['M_s', 'the whole span for the arm', (v) => v('F_1') * v('l_L') / 1000, 'listed M_s.whole-span'],
    ['I', 'the radius for the diameter', (v) => PI * (v('d') / 2) ** 4 / 64, 'times d', 'listed I.radius'],
    ['I', 'the diameter in πr⁴/4', (v) => PI * v('d') ** 4 / 4, 'listed I.diameter'],
    ['I', 'd³ for d⁴', (v) => PI * v('d') ** 3 / 64, 'power'],
    ['I', '32 for 64', (v) => PI * v('d') ** 4 / 32, 'factor', 'listed I.polar'],
    ['I', 'π left out', (v) => v('d') ** 4 / 64, 'left out'],
    ['I', 'd² for d⁴', (v) => PI * v('d') ** 2 / 64, 'power'],
    ['I', 'D for d', (v) => PI * v('D') ** 4 / 64, 'another symbol d for D', 'listed d.grip', 'listed I.grip'],
    ['c', 'd for d/2', (v) => v('d'), 'factor', 'times d', 'left out', 'listed c.diameter'],
    ['c', 'd/4', (v) => v('d') / 4, 'factor', 'times d', 'listed d.radius'],
    ['sigma_a', 'twice: range for amplitude', (v) => 2 * v('M_s') * v('c') / v('I') * 1000, 'listed sigma_a.range', 'factor'],
    ['sigma_a', 'the moment in N·m', (v) => v('M_s') * v('c') / v('I'), 'power of ten'],
    ['sigma_a', 'the diameter for c', (v) => v('M_s') * v('d') / v('I') * 1000, 'times c', 'another symbol c for d', 'factor', 'listed sigma_a.range', 'listed c.diameter'],
    ['sigma_a', 'in psi, written as MPa', (v) => v('sigma_a') / 0.006894757293168361, 'unit', 'unit + power of ten'],
    ['sigma_a', 'in ksi, written as MPa', (v) => v('sigma_a') / 6.894757293168361, 'unit'],
    ['sigma_a', 'multiplied by I', (v) => v('M_s') * v('c') * v('I') * 1000, 'multiplied'],
    ['sigma_a', 'c left out', (v) => v('M_s') / v('I') * 1000, 'left out'],
    ['S_e0', 'half forgotten', (v) => v('S_ut'), 'factor', 'left out', 'times S_ut'],
    ['S_e0', 'the yield strength', (v) => 0.5 * v('S_y'), 'another symbol S_ut for S_y', 'listed S_ut.yield'],
    ['S_e', 'k_b forgotten', (v) => v('c_a') * v('k_a') * v('k_c') * v('k_d') * v('k_e') * v('S_e0'), 'left out'],
    ['S_e', 'S_ut for S_e0', (v) => v('k_a') * v('k_b') * v('S_ut'), 'another symbol S_e0 for S_ut', 'factor', 'times S_e0'],
    ['B', 'the sign', (v) => -v('B'), 'sign'],
    ['B', 'natural logarithm below', (v) => (3 - log10(v('N_e'))) / (Math.log(v('f_u') * v('S_ut')) - log10(v('S_e'))), 'logarithm'],
    ['B', 'turned over', (v) => 1 / v('B'), 'turned over'],
    ['B', 'f_u forgotten', (v) => (3 - log10(v('N_e'))) / (log10(v('S_ut')) - log10(v('S_e'))), 'left out'],
    ['A', 'the sign of B', (v) => 3 + v('B') * log10(v('f_u') * v('S_ut')), 'sign inside', 'sign'],
    ['A', '3 forgotten', (v) => -v('B') * log10(v('f_u') * v('S_ut')), 'left out'],
    ['A', 'f_u forgotten', (v) => 3 - v('B') * log10(v('S_ut')), 'left out'],
    ['N_f', 'the sign of B', (v) => 10 ** (v('A') - v('B') * log10(v('sigma_a'))), 'sign inside'],
    ['N_f', 'the stress halved', (v) => 10 ** (v('A') + v('B') * log10(v('sigma_a') / 2)), 'times sigma_a', 'times K_f'],
    ['N_f', 'the stress doubled', (v) => 10 ** (v('A') + v('B') * log10(v('sigma_a') * 2)), 'times sigma_a', 'times K_f', 'listed sigma_a.range'],
    ['N_f', 'the logarithm given for the life', (v) => v('A') + v('B') * log10(v('sigma_a')), 'left out', 'function left out'],
    ['N_f', 'ten times', (v) => 10 * v('N_f'), 'power of ten'],
  ]),
  ...of('alternating-bending', [
    ['Delta', 'the readings added', (v) => v('z_1') + v('z_2'), 'sign inside'],
    ['Delta', 'z_0 for z_1', (v) => Math.abs(v('z_2') - v('z_0')), 'another symbol z_1 for z_0'],
    ['delta_a', 'peak to peak', (v) => v('Delta'), 'factor', 'left out', 'times Delta', 'listed delta_a.stroke', 'listed delta_a.range'],
    ['delta_m', 'the zero reading forgotten', (v) => (v('z_1') + v('z_2')) / 2, 'left out', 'listed delta_m.datum'],
    ['delta_m', 'not halved', (v) => v('z_1') + v('z_2') - v('z_u'), 'left out', 'factor'],
    ['I', 'h² for h³', (v) => v('b') * v('t') ** 2 / 12, 'power'],
    ['I', 'b and h changed places', (v) => v('t') * v('b') ** 3 / 12, 'changed places b for t', 'changed places b for h', 'changed places h for b'],
    ['I', '6 for 12', (v) => v('b') * v('t') ** 3 / 6, 'factor', 'times b'],
    ['I', '12 forgotten', (v) => v('b') * v('t') ** 3, 'left out'],
    ['I', 'half the thickness', (v) => v('b') * (v('t') / 2) ** 3 / 12, 'times t', 'times h'],
    ['c', 'h for h/2', (v) => v('h'), 'factor', 'left out', 'times h', 'listed c.height'],
    ['k_P', 'L² for L³', (v) => 3 * v('E') * 1000 * v('I') / v('L_b') ** 2, 'power'],
    ['k_P', 'the 3 forgotten', (v) => v('E') * 1000 * v('I') / v('L_b') ** 3, 'left out', 'factor'],
    ['k_P', 'E in GPa', (v) => 3 * v('E') * v('I') / v('L_b') ** 3, 'power of ten'],
    ['k_P', 'E forgotten', (v) => 3 * v('I') / v('L_b') ** 3, 'left out', 'left out + power of ten'],
    ['P_a', 'peak to peak', (v) => v('k_P') * v('Delta'), 'factor', 'times delta_s', 'another symbol delta_s for Delta', 'times k_P', 'listed delta_a.stroke', 'listed delta_a.range'],
    ['P_a', 'divided by the stroke', (v) => v('k_P') / v('delta_a'), 'multiplied', 'turned over', 'divided'],
    ['M_a', 'half the length', (v) => v('P_a') * v('L_b') / 2000, 'times L_b', 'factor', 'times P_a'],
    ['M_a', 'in N·mm, written as N·m', (v) => v('P_a') * v('L_b'), 'power of ten'],
    ['M_a', 'the mean force', (v) => v('P_m') * v('L_b') / 1000, 'another symbol P_a for P_m'],
    ['sigma_a', 'h for c', (v) => v('M_a') * v('h') / v('I') * 1000, 'times c', 'another symbol c for h', 'factor'],
    ['sigma_a', 'the moment in N·m', (v) => v('M_a') * v('c') / v('I'), 'power of ten'],
    ['sigma_a', 'the mean moment', (v) => v('M_m') * v('c') / v('I') * 1000, 'another symbol M_a for M_m'],
    ['sigma_a', 'in ksi, written as MPa', (v) => v('sigma_a') / 6.894757293168361, 'unit'],
    ['sigma_ar', 'the sign', (v) => v('sigma_K') / (1 + v('sigma_m') / v('S_ut')), 'sign inside'],
    ['sigma_ar', 'the mean stress forgotten', (v) => v('sigma_K'), 'left out'],
    ['sigma_ar', 'the yield strength', (v) => v('sigma_K') / (1 - v('sigma_m') / v('S_y')), 'another symbol S_ut for S_y'],
    ['S_e0', 'half forgotten', (v) => v('S_ut'), 'factor', 'left out', 'times S_ut'],
    ['N_sigma', 'the stress amplitude without the mean stress', (v) => 10 ** (v('A') + v('B') * log10(v('sigma_a'))), 'another symbol sigma_ar for sigma_a', 'another symbol sigma_ar for sigma_K'],
    ['N_sigma', 'the sign of B', (v) => 10 ** (v('A') - v('B') * log10(v('sigma_ar'))), 'sign inside'],
  ]),
];

/** Kept aside while the search was made: it was looked at once, when that was done. */
export const ASIDE: readonly Planted[] = [
  ...of('rotating-bending', [
    ['W', 'half of the load', (v) => (v('F') - v('F_0')) / 2, 'factor', 'times F'],
    ['W', 'the zero reading ten times', (v) => v('F') - 10 * v('F_0'), 'times F_0'],
    ['F_2', 'the whole load', (v) => v('W'), 'left out', 'factor', 'times F_1'],
    ['R_A', 'divided by l_2', (v) => (v('F_1') * (v('l_2') + v('l_3')) + v('F_2') * v('l_3')) / v('l_2'), 'another symbol l_L for l_2', 'another symbol l_L for s_2'],
    ['R_A', 'half the span below', (v) => (v('F_1') * (v('l_2') + v('l_3')) + v('F_2') * v('l_3')) / (v('l_L') / 2), 'times l_L', 'factor'],
    ['R_A', 'the difference of the arms', (v) => (v('F_1') * (v('l_2') - v('l_3')) + v('F_2') * v('l_3')) / v('l_L'), 'sign inside'],
    ['M_s', 'twice', (v) => 2 * v('M_s'), 'factor'],
    ['M_s', 'F_2 for R_A', (v) => (v('F_2') * v('x_s') - v('F_1') * (v('x_s') - v('l_1'))) / 1000, 'another symbol R_A for F_2'],
    ['M_s', 'an arm of l_3 for l_1', (v) => (v('R_A') * v('x_s') - v('F_1') * (v('x_s') - v('l_3'))) / 1000, 'another symbol l_1 for l_3', 'another symbol l_1 for s_3'],
    ['I', 'd⁵ for d⁴', (v) => PI * v('d') ** 5 / 64, 'power'],
    ['I', 'the diameter doubled', (v) => PI * (2 * v('d')) ** 4 / 64, 'times d'],
    ['I', '64 forgotten', (v) => PI * v('d') ** 4, 'left out'],
    ['I', 'in cm⁴, written as mm⁴', (v) => PI * v('d') ** 4 / 64 / 1e4, 'power of ten'],
    ['sigma_a', 'half', (v) => v('sigma_a') / 2, 'factor', 'times M_s', 'times c'],
    ['sigma_a', 'the reaction for the moment', (v) => v('sigma_a') * 1e6, 'power of ten'],
    ['sigma_a', 'I left out', (v) => v('M_s') * 1000 * v('c'), 'left out'],
    ['S_e0', 'a tenth', (v) => 0.1 * v('S_e0'), 'power of ten'],
    ['S_e', 'half', (v) => v('S_e') / 2, 'factor', 'times S_e0'],
    ['B', 'the stress at the limit left out', (v) => (3 - log10(v('N_e'))) / log10(v('f_u') * v('S_ut')), 'left out'],
    ['B', '3 forgotten', (v) => -log10(v('N_e')) / (log10(v('f_u') * v('S_ut')) - log10(v('S_e'))), 'left out'],
    ['A', 'B forgotten', (v) => 3 - log10(v('f_u') * v('S_ut')), 'left out'],
    ['A', 'B and its logarithm forgotten', () => 3, 'left out'],
    ['N_f', 'the endurance limit for the stress', (v) => 10 ** (v('A') + v('B') * log10(v('S_e'))), 'another symbol sigma_a for S_e'],
    ['N_f', 'A forgotten', (v) => 10 ** (v('B') * log10(v('sigma_a'))), 'left out'],
  ]),
  ...of('alternating-bending', [
    ['Delta', 'z_0 for z_2', (v) => Math.abs(v('z_0') - v('z_1')), 'another symbol z_2 for z_0'],
    ['delta_m', 'the zero reading added', (v) => (v('z_1') + v('z_2')) / 2 + v('z_u'), 'sign inside'],
    ['I', 'h⁴ for h³', (v) => v('b') * v('t') ** 4 / 12, 'power'],
    ['I', 'b left out', (v) => v('t') ** 3 / 12, 'left out'],
    ['I', 'twice the thickness', (v) => v('b') * (2 * v('t')) ** 3 / 12, 'times h', 'times t'],
    ['k_P', 'half the length', (v) => 3 * v('E') * 1000 * v('I') / (v('L_b') / 2) ** 3, 'times L_b', 'factor'],
    ['k_P', 'I forgotten', (v) => 3 * v('E') * 1000 / v('L_b') ** 3, 'left out'],
    ['P_a', 'the mean deflection', (v) => v('k_P') * v('delta_ms'), 'another symbol delta_s for delta_ms', 'another symbol delta_s for delta_m'],
    ['M_a', 'divided by the length', (v) => v('P_a') / v('L_b'), 'divided', 'divided + power of ten'],
    ['M_m', 'the amplitude of the force', (v) => v('P_a') * v('L_b') / 1000, 'another symbol P_m for P_a'],
    ['sigma_a', 'divided by c', (v) => v('M_a') * 1000 / v('c') / v('I'), 'divided'],
    ['sigma_m', 'half', (v) => v('sigma_m') / 2, 'factor', 'times M_m', 'times c'],
    ['sigma_ar', 'times the bracket', (v) => v('sigma_K') * (1 - v('sigma_m') / v('S_ut')), 'multiplied'],
    ['S_e', 'S_ut for S_e0', (v) => v('k_a') * v('k_b') * v('S_ut'), 'another symbol S_e0 for S_ut', 'factor', 'times S_e0'],
    ['N_sigma', 'ten to the power forgotten', (v) => v('A') + v('B') * log10(v('sigma_ar')), 'function left out'],
  ]),
];

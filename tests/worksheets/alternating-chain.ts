/**
 * The alternating-bending chain computed apart from the project's code, in plain arithmetic: the deflection of a unit force
 * by the integral of M²/(E I) (unit-load theorem, any textbook of strength of materials) instead of closed formulas, the
 * strain life by halving an interval, the mean-stress corrections through the stress ratio where the sheet uses σ_max.
 * Sources: Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th ed. (line through two points, equations 6-13 to 6-16;
 * size factor, 6-20, 6-24, 6-25; Goodman, Gerber, Soderberg, section 6-12); Dowling, Mechanical Behavior of Materials, 4th ed.
 * (Morrow; Smith, Watson and Topper; Walker; strain life; from memory).
 */
export type Support = 'cantilever' | 'guided' | 'tapered' | 'centre';
export type MeanStress = 'none' | 'goodman' | 'gerber' | 'soderberg' | 'morrow' | 'swt' | 'walker';

export interface AlternatingInputs {
  support: Support; section: 'rectangular' | 'round'; mean_stress: MeanStress;
  z_0: number; z_1: number; z_2: number; L_b: number; b: number; t: number; d: number; x_s: number; // m
  k_m: number; // N/m
  E: number; S_ut: number; S_y: number; sigma_f0: number; // Pa
  b_f0: number; epsilon_f0: number; c_f0: number; gamma: number; f: number; K_t: number; q: number;
  n: number; // 1/s
}

export interface AlternatingResults {
  Delta: number; delta_a: number; delta_m: number; I: number; k_P: number; delta_s: number; P_a: number; M_a: number; sigma_a: number; sigma_m: number;
  R: number; sigma_x: number; sigma_K: number; sigma_ar: number; S_e: number; A: number; B: number; N_sigma: number; N_epsilon: number;
}

/** Bending moment under a unit force at the drive, and the width's share of that at the clamp. */
function held(support: Support, length: number): { moment: (x: number) => number; width: (x: number) => number; virtual: (x: number) => number } {
  const one = (): number => 1;
  switch (support) {
    case 'cantilever':
      return { moment: (x) => length - x, width: one, virtual: (x) => length - x };
    case 'tapered':
      return { moment: (x) => length - x, width: (x) => (length - x) / length, virtual: (x) => length - x };
    case 'guided':
      // The end couple that keeps the slope at the drive at zero is half the clamp's.
      return { moment: (x) => length / 2 - x, width: one, virtual: (x) => length - x };
    case 'centre':
      return { moment: (x) => Math.min(x, length - x) / 2, width: one, virtual: (x) => Math.min(x, length - x) / 2 };
  }
}

/** Gauss-Legendre with three points on each of many pieces: exact for the polynomials here. */
function integral(f: (x: number) => number, length: number): number {
  const pieces = 64;
  const h = length / pieces;
  let sum = 0;
  for (let i = 0; i < pieces; i++) {
    for (const [node, weight] of [[-Math.sqrt(0.6), 5 / 9], [0, 8 / 9], [Math.sqrt(0.6), 5 / 9]] as const) sum += (weight * h * f((i + 0.5 + node / 2) * h)) / 2;
  }
  return sum;
}

export function alternatingChain(v: AlternatingInputs): AlternatingResults {
  const height = v.section === 'round' ? v.d : v.t;
  const I = v.section === 'round' ? (Math.PI * v.d ** 4) / 64 : (v.b * v.t ** 3) / 12;
  const { moment, width, virtual } = held(v.support, v.L_b);
  const compliance = integral((x) => (moment(x) * virtual(x)) / (v.E * I * width(x)), v.L_b);
  const k_P = 1 / compliance;
  const Delta = Math.abs(v.z_1 - v.z_2);
  const delta_m = (v.z_1 + v.z_2) / 2 - v.z_0;
  // Springs in a row: travel shared as compliance is.
  const share = v.k_m === 0 ? 1 : compliance / (compliance + 1 / v.k_m);
  const delta_s = (share * Delta) / 2;
  const P_a = delta_s * k_P;
  const place = v.support === 'centre' ? v.L_b / 2 : 0;
  const greatest = Math.abs(moment(place));
  const stressOf = (force: number, x: number): number => (force * Math.abs(moment(x)) * height) / (2 * I * width(x));
  const sigma_a = stressOf(P_a, place);
  const sigma_m = stressOf(share * Math.abs(delta_m) * k_P, place);
  const K_f = 1 + v.q * (v.K_t - 1);
  const sigma_K = K_f * sigma_a;
  const sigma_ar = equivalent(v, sigma_K, sigma_m);
  const d_e = v.section === 'round' ? 0.37 * v.d : 0.808 * Math.sqrt(v.b * v.t);
  const millimetres = d_e * 1e3;
  const k_b = Math.min(1, millimetres <= 51 ? 1.24 * millimetres ** -0.107 : 1.51 * millimetres ** -0.157);
  const S_e = k_b * Math.min(0.5 * v.S_ut, 700e6);
  const a = (v.f * v.S_ut) ** 2 / S_e;
  const exponent = -Math.log10((v.f * v.S_ut) / S_e) / 3;
  const N_star = strainLife(v, (K_f * sigma_a) / v.E);
  return {
    Delta, delta_a: Delta / 2, delta_m, I, k_P, delta_s, P_a, M_a: P_a * greatest, sigma_a, sigma_m,
    R: (sigma_m - sigma_a) / (sigma_m + sigma_a), sigma_x: stressOf(P_a, v.x_s), sigma_K, sigma_ar, S_e,
    A: -Math.log10(a / 1e6) / exponent, B: 1 / exponent, N_sigma: (sigma_ar / a) ** (1 / exponent),
    N_epsilon: N_star * (sigma_ar / sigma_K) ** (1 / v.b_f0),
  };
}

function equivalent(v: AlternatingInputs, amplitude: number, mean: number): number {
  const R = (mean - amplitude) / (mean + amplitude);
  switch (v.mean_stress) {
    case 'none':
      return amplitude;
    case 'goodman':
      return (amplitude * v.S_ut) / (v.S_ut - mean);
    case 'gerber':
      return (amplitude * v.S_ut ** 2) / (v.S_ut ** 2 - mean ** 2);
    case 'soderberg':
      return (amplitude * v.S_y) / (v.S_y - mean);
    case 'morrow':
      return (amplitude * v.sigma_f0) / (v.sigma_f0 - mean);
    case 'swt':
      return amplitude * Math.sqrt(2 / (1 - R));
    case 'walker':
      return amplitude * (2 / (1 - R)) ** (1 - v.gamma);
  }
}

/** Cycles at which the two lines together give the strain amplitude. */
function strainLife(v: AlternatingInputs, strain: number): number {
  let [low, high] = [-5, 60];
  for (let step = 0; step < 200; step++) {
    const middle = (low + high) / 2;
    const reversals = 10 ** middle;
    if ((v.sigma_f0 / v.E) * reversals ** v.b_f0 + v.epsilon_f0 * reversals ** v.c_f0 > strain) low = middle;
    else high = middle;
  }
  return 10 ** low / 2;
}

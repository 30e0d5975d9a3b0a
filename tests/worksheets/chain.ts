/**
 * The rotating-bending chain computed apart from the project's code, in plain arithmetic: equilibrium solved as two
 * linear equations, moment by summing couples left of the section, the estimated line through its two points.
 * Sources: Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th ed., equations 6-8 (limit), 6-13 to 6-16
 * (line), 6-20 (size), tables 6-2 and 6-5; statics and I = πd⁴/64 as in any statics textbook.
 */
export interface ChainInputs {
  L: number; s_1: number; s_2: number; s_3: number; x_s: number; d: number; // m
  F: number; F_0: number; // N
  k_F: number;
  S_ut: number; // Pa
  f: number;
  K_t: number;
  q: number;
  n: number; // 1/s
  s_0: number;
}

export interface ChainResults {
  r: number; W: number; F_1: number; F_2: number; R_A: number; R_B: number; V_s: number; M_s: number;
  I: number; c: number; sigma_a: number; K_f: number; k_b: number; S_e: number; A: number; B: number; N_f: number; t_f: number;
}

export function chain(v: ChainInputs): ChainResults {
  const W = v.F - v.F_0;
  const F_1 = v.k_F * W;
  const F_2 = (1 - v.k_F) * W;
  // Moments about B with the arms measured from the right, and about A with those from the left.
  const R_A = (F_1 * (v.s_2 + v.s_3) + F_2 * v.s_3) / v.L;
  const R_B = (F_1 * v.s_1 + F_2 * (v.s_1 + v.s_2)) / v.L;
  let M_s = R_A * v.x_s;
  let V_s = R_A;
  for (const [place, load] of [[v.s_1, F_1], [v.s_1 + v.s_2, F_2]] as const) {
    if (place <= v.x_s) V_s -= load;
    if (place < v.x_s) M_s -= load * (v.x_s - place);
  }
  const I = (Math.PI * v.d ** 4) / 64;
  const sigma_a = (32 * M_s) / (Math.PI * v.d ** 3);
  const K_f = 1 + v.q * (v.K_t - 1);
  const k_b = Math.min(1, 1.24 * (v.d * 1e3) ** -0.107);
  const S_e = k_b * Math.min(0.5 * v.S_ut, 700e6);
  // Power law S = a N^b through (10³, f S_ut) and (10⁶, S_e).
  const a = (v.f * v.S_ut) ** 2 / S_e;
  const b = -Math.log10((v.f * v.S_ut) / S_e) / 3;
  const N_f = ((K_f * sigma_a) / a) ** (1 / b);
  return {
    r: v.L - v.s_1 - v.s_2 - v.s_3, W, F_1, F_2, R_A, R_B, V_s, M_s, I, c: v.d / 2, sigma_a, K_f, k_b, S_e,
    A: -Math.log10(a / 1e6) / b, B: 1 / b, N_f, t_f: N_f / v.n,
  };
}

/** First-order combined standard uncertainty by central differences refined once (Richardson), independent inputs. */
export function propagated(
  key: keyof ChainResults,
  values: ChainInputs,
  uncertainties: Partial<Record<keyof ChainInputs, number>>,
): number {
  let sum = 0;
  for (const [name, u] of Object.entries(uncertainties) as [keyof ChainInputs, number][]) {
    const slope = (h: number): number =>
      (chain({ ...values, [name]: values[name] + h })[key] - chain({ ...values, [name]: values[name] - h })[key]) / (2 * h);
    const h = 1e-4 * Math.abs(values[name] || u);
    sum += (((4 * slope(h / 2) - slope(h)) / 3) * u) ** 2;
  }
  return Math.sqrt(sum);
}

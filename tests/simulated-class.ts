/**
 * Thirty teams with one rotating-bending machine, as their sheets come back: own numbers, own results worked out here by the statics of any textbook
 * (R_A and M of a beam on two supports, σ = 32M/(πd³)) and rounded to four figures, and planted mistakes. Everything is invented.
 */
import { createRandom, type Random } from '../src/core/numeric/index.ts';
import { embedDocument, reportPage } from '../src/report/index.ts';
import { shipped } from './shipped.ts';

/** What was planted, by number of the team. */
export const PLANTED = {
  /** σ worked out with the radius for the diameter: eight times too large. */
  radius: 3,
  /** The stress range given as the amplitude. */
  range: 5,
  /** R_A as one half of what it is, and the moment and the stress rightly worked out from that. */
  carried: 7,
  /** Two figures where four are there. */
  fewDigits: 9,
  /** No number. */
  unreadable: 11,
  /** Nothing entered at all. */
  open: 13,
  /** A diameter of 9.52 mm written down for 7.52 mm. */
  wrongDiameter: 15,
  /** The same readings as the team before. */
  copied: 18,
  /** Its specimen is called as the one of the team before. */
  sameSpecimen: 22,
  /** Another formula for the stress. */
  otherFormula: 24,
  /** A name that would be markup. */
  hostile: 26,
} as const;

export interface SimulatedTeam {
  readonly number: number;
  readonly team: string;
  readonly specimen: string;
  /** The sheet's text. */
  readonly text: string;
  readonly right: { readonly R_A: number; readonly M_s: number; readonly sigma_a: number };
}

const TEMPLATE = shipped('rotating-bending').replaceAll('\norigin: example', '').replace(/^example_head:.*\n/m, '');
export const ASKED = ['R_A', 'M_s', 'sigma_a'] as const;

/** Readings on a scale by hands that err by two thirds of its step, the same at every run. */
function readings(centre: number, step: number, random: Random): readonly number[] {
  return [0, 1, 2, 3].map(() => centre + step * Math.round(0.65 * random.normal()));
}

const mean = (numbers: readonly number[]): number => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;

export function simulatedTeam(number: number): SimulatedTeam {
  const like = number === PLANTED.copied ? number - 1 : number;
  const team = number === PLANTED.hostile ? '"><img src=x onerror="window.hit=1">' : `T${String(number).padStart(2, '0')}`;
  const specimen = `PS-${String(number === PLANTED.sameSpecimen ? number - 1 : number).padStart(2, '0')}`;
  const random = createRandom(20_261_130 + like);
  const spans = { s_1: readings(101, 0.5, random), s_2: readings(200, 0.5, random), s_3: readings(100.5, 0.5, random), L: readings(401.5, 0.5, random) };
  const d = readings(number === PLANTED.wrongDiameter ? 9.52 : 7.52, 0.01, random);
  const F = 310 + 0.5 * Math.round(2 * random.normal());
  const [l1, l2, l3, x, W] = [mean(spans.s_1), mean(spans.s_2), mean(spans.s_3), 200.5, F - 1.5];
  const R_A = ((W / 2) * (l2 + l3) + (W / 2) * l3) / mean(spans.L);
  const M_s = (R_A * x - (W / 2) * (x - l1)) / 1000;
  const sigma_a = (32 * M_s * 1000) / (Math.PI * mean(d) ** 3);
  const right = { R_A, M_s, sigma_a };
  let text = withHead(TEMPLATE, { team: JSON.stringify(team), specimen, operators: 'the shaft group' });
  for (const [symbol, list] of Object.entries({ ...spans, d })) text = withKey(text, symbol, 'readings', `${list.map((one) => one.toFixed(symbol === 'd' ? 2 : 1)).join(', ')} mm`);
  text = withKey(text, 'F', 'value', `${F.toFixed(1)} N`);
  for (const [symbol, answer] of Object.entries(answersOf(number, right))) text = withKey(text, symbol, 'answer', JSON.stringify(answer));
  if (number === PLANTED.otherFormula) text = text.replace('formula: M_s*c/I + sigma_d', 'formula: 2*M_s*c/I + sigma_d');
  return { number, team, specimen, right, text: withTest(text, 100_000 + 3000 * number) };
}

/** What is written down as an own result. */
function answersOf(number: number, { R_A, M_s, sigma_a }: SimulatedTeam['right']): Readonly<Record<string, string>> {
  const said = (value: number, unit: string): string => `${Number(value.toPrecision(4))} ${unit}`;
  const plain = { R_A: said(R_A, 'N'), M_s: said(M_s, 'N·m'), sigma_a: said(sigma_a, 'MPa') };
  switch (number) {
    case PLANTED.radius: return { ...plain, sigma_a: said(8 * sigma_a, 'MPa') };
    case PLANTED.range: return { ...plain, sigma_a: said(2 * sigma_a, 'MPa') };
    case PLANTED.carried: {
      // M = R_A x − F_1 (x − l_1) falls by R_A x/2.
      const moment = M_s - (R_A / 2) * 0.2005;
      return { R_A: said(R_A / 2, 'N'), M_s: said(moment, 'N·m'), sigma_a: said((sigma_a * moment) / M_s, 'MPa') };
    }
    case PLANTED.fewDigits: return { ...plain, R_A: `${Number((R_A / 1000).toPrecision(1))} kN` };
    case PLANTED.unreadable: return { ...plain, M_s: 'about fifteen' };
    case PLANTED.open: return {};
    default: return plain;
  }
}

function withHead(text: string, entries: Readonly<Record<string, string>>): string {
  return Object.entries(entries).reduce((all, [key, value]) => all.replace(new RegExp(`^${key}:.*$`, 'm'), () => `${key}: ${value}`), text);
}

/** Sets one key of the given or step that defines a symbol, and makes what has an answer asked for. */
function withKey(text: string, symbol: string, key: string, value: string): string {
  const cell = new RegExp(`(\`\`\`(?:given|step)\\nsymbol: ${symbol}\\n)([\\s\\S]*?)(\`\`\`\\n)`);
  if (!cell.test(text)) throw new Error(`no cell defines ${symbol}`);
  return text.replace(cell, (_all, head: string, body: string, end: string) => `${head}${key}: ${value}\n${body.replace(/^(?:value|readings): .*\n/gm, (line) => (key === 'answer' ? line : ''))}${end}`);
}

/** The steps asked of every team, and a test that came to its end. */
function withTest(text: string, cycles: number): string {
  const asking = ASKED.reduce((all, symbol) => all.replace(`\`\`\`step\nsymbol: ${symbol}\n`, `\`\`\`step\nsymbol: ${symbol}\nasked: true\n`), text);
  const [start, end] = ['2026-11-20T09:00:00+01:00', new Date(Date.parse('2026-11-20T08:00:00Z') + (cycles / 2800) * 60_000).toISOString().replace('.000', '')];
  return asking.replace('```record\nid: test\n', `\`\`\`record\nid: test\nstarted: ${start}\nended: ${end.replace(/\.\d+Z/, 'Z')}\ncounter_start: 0\ncounter_end: ${cycles / 100}\noutcome: fracture\n`);
}

/** The thirty. */
export function simulatedClass(count = 30): readonly SimulatedTeam[] {
  return Array.from({ length: count }, (_, i) => simulatedTeam(i + 1));
}

/** A team's file: every third a document, every third a report, every third as a working file holds the sheet. */
export function fileOf({ number, text }: SimulatedTeam): { readonly name: string; readonly content: string } {
  const name = `team-${String(number).padStart(2, '0')}`;
  if (number % 3 === 0) return { name: `${name}.md`, content: text };
  if (number % 3 === 1) return { name: `${name}-report.html`, content: reportPage({ title: name, bodyHtml: '<p>report</p>', css: '', documentText: text, language: 'en-GB' }) };
  return { name: `${name}-working.html`, content: `<!doctype html><html><body><main></main>${embedDocument(text)}<script>window.hit = 1</script></body></html>` };
}

/**
 * In how many of 100 cases the 95 % interval of a life by the line estimated from the tensile strength holds it: strength, limit, fraction, surface
 * and stress sampled from the laws that the sheet states, with a fixed seed. A number after the name is the samples.
 */
import { sampledLives, loadFor, type Surface } from './estimated-study.ts';

const SAMPLES = Number(process.argv[2] ?? 100_000);
const MATERIALS = ['1015-normalised', '1045-cold-drawn', '4340-aircraft'];
const SURFACES: readonly Surface[] = ['polished', 'ground', 'machined', 'hot-rolled', 'forged'];
const LIVES = [4, 4.5, 5, 5.5];

const cells = (values: readonly string[]): string => `| ${values.join(' | ')} |`;
const rows: string[] = [];
for (const material of MATERIALS) {
  for (const surface of SURFACES) {
    const held: string[] = [];
    for (const lgN of LIVES) {
      const { shares } = await sampledLives({ material, surface, F: await loadFor({ material, surface }, lgN) }, SAMPLES);
      held.push(`${(100 * shares.inside).toFixed(1)} (${(100 * (1 - shares.broken)).toFixed(1)})`);
    }
    rows.push(cells([material, surface, ...held]));
  }
}
console.log(`\nHow many of 100 lives the 95 % interval by the estimated line held (${SAMPLES} draws each),\nand in brackets how many of 100 do not break, the drawn limit being above the stress\n`);
console.log([cells(['material', 'surface', ...LIVES.map((lgN) => `10^${lgN} cycles`)]), cells(Array<string>(LIVES.length + 2).fill('---')), ...rows].join('\n'));

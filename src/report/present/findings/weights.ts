import type { LeverSetting, LeverSettings } from '../../../core/mechanics/index.ts';
import type { TableState, WeightsFindings } from '../../../graph/index.ts';
import { figures, plainFigures, withUnit } from '../number.ts';
import type { PresentedSmallTable } from '../types.ts';
import { percent, type FindingsWords } from './words.ts';

/** Which weights to put on and where, what that gives, and what it would take where no place gives the load. */
export function weightsWords(findings: WeightsFindings, table: TableState | undefined): FindingsWords {
  const { settings, lever, none } = findings;
  const asked = [`for ${newtons(lever.wanted)}`, `travel ${millimetres(lever.from)} to ${millimetres(lever.to)}`, ...(lever.apart > 0 ? [`places ${millimetres(lever.apart)} apart`] : [])];
  const [best] = settings?.settings ?? [];
  if (settings === undefined || best === undefined) return { settings: asked, sentences: none === undefined ? [] : [`${none.what} ${none.mend}`], tables: [], facts: [] };
  return {
    settings: asked,
    advice: adviceOf(findings, settings, best, table),
    sentences: [],
    tables: [settingsTable(findings, settings, table)],
    facts: [
      { name: 'Chosen', text: `of all combinations those within ${percent(lever.near)} of the wanted load go first, the one with the fewest pieces before others, then the lightest: it stands farthest out, where a place that is off counts least` },
      { name: 'It takes', text: takesWords(findings, settings) },
    ],
  };
}

function adviceOf(findings: WeightsFindings, settings: LeverSettings, best: LeverSetting, table: TableState | undefined): string {
  const { lever } = findings;
  const put = best.mass === 0
    ? 'Put on none of these weights'
    : `Put ${best.pieces === 0 ? 'only the carrier' : weightsOf(best, findings, table)} at ${millimetres(best.place)} from the fulcrum`;
  const gets = `the specimen then carries ${newtons(best.load)}, ${offWords(best, findings)}`;
  return settings.isNear ? `${put}: ${gets}.` : `No place within the travel gives ${newtons(lever.wanted)} with these weights. ${whyNot(findings, settings)} Nearest: ${lowered(put)}; ${gets}.`;
}

/** What stands in the way, and what would mend it. */
function whyNot(findings: WeightsFindings, { needed, owned, bare }: LeverSettings): string {
  const { lever } = findings;
  const amount = (value: number): string => massText(value, findings);
  if (needed.least < 0) return `What is on the lever without them already gives ${newtons(bare)}: take weights off, move them inwards, or the counterweight outwards.`;
  if (owned.most < needed.least) return `It would take at least ${amount(needed.least)}, at the far end, and all of them together are ${amount(owned.most)}: add ${amount(needed.least - owned.most)}, or move the other weights outwards.`;
  if (owned.least > needed.most) return `It would take at most ${amount(needed.most)}, at the near end, and the lightest is ${amount(owned.least)}: take a lighter one, or move the other weights inwards.`;
  return lever.apart > 0
    ? `It takes ${rangeText(findings, needed)}, and the places are ${millimetres(lever.apart)} apart: a small weight more, or a rider at another place, gives the rest.`
    : `It would take ${rangeText(findings, needed)} together, and no combination is as heavy: add a weight in between.`;
}

function takesWords(findings: WeightsFindings, { needed }: LeverSettings): string {
  return needed.least < 0 ? 'less than nothing: there is too much on the lever already' : `${rangeText(findings, needed)} together, at the far and at the near end of the travel`;
}

function rangeText(findings: WeightsFindings, { least, most }: LeverSettings['needed']): string {
  return Number.isFinite(most) ? `${massText(least, findings)} to ${massText(most, findings)}` : `at least ${massText(least, findings)}`;
}

function settingsTable(findings: WeightsFindings, { settings }: LeverSettings, table: TableState | undefined): PresentedSmallTable {
  const unit = findings.isMass ? 'kg' : 'N';
  return {
    caption: 'The best and what comes next',
    heads: [{ text: 'Weights' }, { text: `Together / ${unit}` }, { text: 'Place / mm' }, { text: 'Load / N' }, { text: 'Off the wanted / N' }],
    rows: settings.map((setting) => ({
      head: { text: setting.pieces === 0 ? 'none' : weightsOf(setting, findings, table) },
      cells: [plainFigures(setting.mass, 5), placeText(setting), figures(setting.load, 5), offText(setting, findings)],
    })),
    note: findings.lever.carrier > 0 ? 'Together with what carries them.' : '',
  };
}

/** The names of the chosen ones, or what they weigh where they have none: `2 × 2 kg + 500 g brass`. */
function weightsOf({ counts }: LeverSetting, findings: WeightsFindings, table: TableState | undefined): string {
  return counts.flatMap((count, i) => {
    if (count === 0) return [];
    const name = nameOf(i, findings, table);
    return [count === 1 ? name : `${count} × ${name}`];
  }).join(' + ');
}

function nameOf(i: number, { rows, owned, isMass }: WeightsFindings, table: TableState | undefined): string {
  const column = table?.columns.find(({ name }) => name === 'name');
  const typed = table === undefined || column === undefined ? '' : table.field(rows[i] ?? 0, column).trim();
  return typed === '' ? withUnit(plainFigures(owned[i]?.mass ?? 0, 5), isMass ? 'kg' : 'N') : typed;
}

function offWords({ load }: LeverSetting, { lever }: WeightsFindings): string {
  const off = load - lever.wanted;
  if (Math.abs(off) <= SAME * lever.wanted) return 'as wanted';
  return `${newtons(Math.abs(off), 2)} (${plainFigures((100 * Math.abs(off)) / lever.wanted, 2)} %) ${off > 0 ? 'more' : 'less'} than wanted`;
}

function offText({ load }: LeverSetting, { lever }: WeightsFindings): string {
  const off = load - lever.wanted;
  if (Math.abs(off) <= SAME * lever.wanted) return '0';
  return `${off > 0 ? '+' : '−'}${plainFigures(Math.abs(off), 2)}`;
}

/** Share of the load that the formula's own sum may round, with room. */
const SAME = 1e-11;

function newtons(value: number, count = 5): string {
  return withUnit(plainFigures(value, count), 'N').replace('-', '−');
}

function millimetres(value: number): string {
  return withUnit(plainFigures(Number((value * 1e3).toPrecision(9)), 5), 'mm');
}

function placeText({ place, mass }: LeverSetting): string {
  return mass === 0 ? '–' : plainFigures(place * 1e3, 5);
}

function massText(value: number, { isMass }: WeightsFindings): string {
  return withUnit(plainFigures(value, 4), isMass ? 'kg' : 'N');
}

function lowered(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

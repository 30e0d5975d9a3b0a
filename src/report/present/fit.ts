import { roundByUncertainty } from '../../core/estimate/index.ts';
import type { LeastSquaresFit, LineFit } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { awaitsLine, canBeCompared, symbolsOf, type FitState, type TableState } from '../../graph/index.ts';
import { cellIn, cellsOf } from '../../sheet/index.ts';
import type { ChoiceOption, FitCell, FitSetting } from '../../sheet/types.ts';
import { asked } from './asked.ts';
import { countsWords, factsOf, limitsWords, methodSentence, settingWords } from './fit-words.ts';
import { awaitsGuess } from './hidden.ts';
import { cellAt } from './lookup.ts';
import { notesOf } from './notes.ts';
import { decimalTex, decimalText, intervalEnd } from './number.ts';
import { specimenName } from './specimen-name.ts';
import { symbolOf } from './symbol.ts';
import { chosenOption } from './step.ts';
import type { PresentContext, WholeContext, PresentedFit, PresentedOffer, PresentedParameter } from './types.ts';

/** Told by name; more would be a list. */
const MOST_NAMED = 5;

/** A line fitted to a table: its settings, the line with numbers, its parameters, and what is to be known of it. */
export function presentFit(cell: FitCell, context: PresentContext): PresentedFit {
  const state = context.states.cell(cell.id)?.fit;
  const notes = notesOf(cell, context);
  const settings = settingsOf(cell, state, context);
  const isAwaited = awaitsGuess(cell.id, context);
  const method = awaitsLine(cell) ? 'No line has been brought in yet.' : isAwaited ? 'Held back for a guess.' : '';
  if (state === undefined || isAwaited) return { ...notes, settings, method, parameters: [], limits: '', counts: '', hasBeside: false, facts: [] };
  const { fit } = state;
  const table = context.states.cell(cell.table)?.table;
  const offer = state.taken === undefined ? undefined : asked(context, offerIn, cell, sameOffer);
  return {
    ...notes,
    warnings: notes.warnings.map((warning) => (warning.code === 'specimens-influential' ? influential(warning, state, table) : warning)),
    settings,
    method: methodSentence(fit),
    lineTex: lineTex(fit, (name) => symbolTexOf(name, cell)),
    numbersTex: numbersTex(fit),
    parameters: parametersOf(fit, cell),
    limits: limitsWords(fit),
    counts: countsWords(fit),
    hasBeside: canBeCompared(state.fit) && state.taken === undefined,
    facts: factsOf(fit, context.system, state.taken),
    ...(offer === undefined ? {} : { offer }),
  };
}

const SETTINGS = ['method', 'life', 'model', 'stress', 'group'] as const;

/** Settings in force: what the fit used where it has a say, else what the cell asks for. */
function settingsOf(cell: FitCell, state: FitState | undefined, context: PresentContext): readonly string[] {
  return SETTINGS.flatMap((name) => {
    const asked = wordOf(cell[name], context);
    const inForce = name === 'group' ? (state?.group ?? asked) : (state?.fit[name] ?? asked);
    return inForce === undefined ? [] : [settingWords(name, inForce)];
  });
}

/** The word itself, or the one that the choice stands at. */
function wordOf(setting: FitSetting | undefined, context: PresentContext): string | undefined {
  if (setting === undefined) return undefined;
  if ('word' in setting) return setting.word;
  const choice = cellIn(cellAt(setting.by, context), 'choice');
  return choice && chosenOption(choice)?.key;
}

/** The first option of a choice that reads a symbol of the fit, unless it is in force already. */
function offerIn({ document }: WholeContext, cell: FitCell): PresentedOffer | undefined {
  const symbols = new Set(cell.symbols.values());
  const reads = ({ sets }: ChoiceOption): boolean => [...sets.values()].some((text) => symbolsOf(text).some((symbol) => symbols.has(symbol)));
  for (const choice of cellsOf(document, 'choice')) {
    const option = choice.options.find(reads);
    if (option === undefined || option.key === choice.chosen) continue;
    return { choiceId: choice.id, optionKey: option.key, optionLabel: option.label, chosenLabel: chosenOption(choice)?.label ?? choice.chosen };
  }
  return undefined;
}

function sameOffer(a: PresentedOffer | undefined, b: PresentedOffer | undefined): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

function symbolTexOf(name: string, cell: FitCell): string {
  return symbolOf(cell.symbols.get(name) ?? name);
}

/** What A, B and C stand before; nothing for A. */
function termTex(name: string, fit: LineFit, limit: string): string {
  const x = stressTex(fit, limit);
  if (name === 'C') return fit.stress === 'plain' ? `${x}^2` : `\\big(${x}\\big)^2`;
  return name === 'B' ? x : '';
}

function stressTex({ model, stress }: LineFit, limit: string): string {
  if (model === 'limit') return `\\log_{10}\\!\\big((S - ${limit})/\\mathrm{MPa}\\big)`;
  return stress === 'plain' ? '(S/\\mathrm{MPa})' : '\\log_{10}(S/\\mathrm{MPa})';
}

const LEFT = '\\log_{10} N =';

function lineTex(fit: LineFit, symbol: (name: string) => string): string {
  const terms = fit.parameters.filter(({ name }) => name !== 'S_0')
    .map(({ name }) => [symbol(name), termTex(name, fit, symbol('S_0'))].join('\\,').replace(/\\,$/, ''));
  return `${LEFT} ${terms.join(' + ')}`;
}

/** Figures of the line with numbers: A and B lean on each other, and rounded each by its own doubt they give another line. */
const LINE_FIGURES = 6;

function numbersTex(fit: LineFit): string {
  const limit = fit.parameters.find(({ name }) => name === 'S_0');
  const limitTex = limit === undefined ? '' : `${numberTex(limit.value)}\\,\\mathrm{MPa}`;
  const terms = fit.parameters.filter(({ name }) => name !== 'S_0').map(({ name, value }, i) => {
    const term = termTex(name, fit, limitTex);
    const sign = value < 0 ? '-' : i === 0 ? '' : '+';
    return `${i === 0 ? sign : ` ${sign} `}${numberTex(Math.abs(value))}${term === '' ? '' : `\\,${term}`}`;
  });
  return `\\phantom{\\log_{10} N} = ${terms.join('')}`;
}

function numberTex(value: number): string {
  const [decimal = '', power = '0'] = value.toPrecision(LINE_FIGURES).split('e');
  return decimalTex(decimal, Number(power));
}

function finiteOrNone(se: number): number {
  return Number.isFinite(se) ? se : 0;
}

const PARAMETER_WORDS: Readonly<Record<string, string>> = { A: 'intercept', B: 'slope', C: 'curvature', S_0: 'fatigue limit', s: 'scatter' };

/** The parameters, then s, which stands last in the covariance as ln s. */
function parametersOf(fit: LineFit, cell: FitCell): readonly PresentedParameter[] {
  const { s, sLimits, covariance } = fit;
  const place = fit.parameters.length;
  const scale = { name: 's', value: s, se: s * Math.sqrt(Math.max(0, covariance[place]?.[place] ?? 0)), ...sLimits };
  return [...fit.parameters, scale].map(({ name, value, se, lo, hi }) => {
    const rounded = roundByUncertainty(value, finiteOrNone(se));
    const symbol = cell.symbols.get(name);
    return {
      name,
      ...(symbol === undefined ? {} : { symbol }),
      symbolTex: name === 'S_0' ? `${symbolTexOf(name, cell)} / \\mathrm{MPa}` : symbolTexOf(name, cell),
      words: PARAMETER_WORDS[name] ?? '',
      value: decimalText(rounded.number, rounded.exponent),
      standardError: rounded.uncertainty === undefined ? '' : decimalText(rounded.uncertainty, rounded.exponent),
      low: intervalEnd(lo, rounded),
      high: intervalEnd(hi, rounded),
    };
  });
}

/** The fit counts the rows it was given; the reader knows the specimens by their names, or by the rows of the table. */
function influential(warning: Problem, { fit, rows }: FitState, table: TableState | undefined): Problem {
  const places = ((fit as Partial<LeastSquaresFit>).influential ?? []).map((row) => rows[row] ?? row);
  const names = places.slice(0, MOST_NAMED).map((place) => specimenName(place, table)).join(', ');
  const one = places.length === 1;
  const more = places.length > MOST_NAMED ? ` and ${places.length - MOST_NAMED} more` : '';
  return { ...warning, what: `${names}${more} ${one ? 'stands' : 'stand'} apart and ${one ? 'pulls' : 'pull'} the line more than the others.` };
}

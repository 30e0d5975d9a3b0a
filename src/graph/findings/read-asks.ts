import { exactly, type Estimate } from '../../core/estimate/index.ts';
import { checkSymbolName } from '../../core/formula/index.ts';
import { nearNames, type Problem, type Result } from '../../core/problem/index.ts';
import { describeDimension, ONE, parseQuantity, parseUnit, sameDimension, type Unit } from '../../core/units/index.ts';
import { fitSetting, type FitCell } from '../../sheet/index.ts';
import { parseBounds, satisfies } from '../bounds.ts';
import type { Names, CompileContext } from '../compiled-types.ts';
import type { Ask } from './form.ts';

/** What a cell asks for, before any symbol has a value. */
interface ReadAsks {
  /** Names of quantities to the symbols that say them. */
  readonly symbols: ReadonlyMap<string, string>;
  /** Names of quantities to what is written there, or usual. */
  readonly fixed: ReadonlyMap<string, Estimate>;
  readonly words: ReadonlyMap<string, string>;
  /** Names of tables to their ids. */
  readonly tables: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Problem[];
}

/** Symbols of the sheet that a cell asks about. */
export function askedSymbols(asks: readonly Ask[], cell: FitCell): readonly string[] {
  const symbols = asks.flatMap((ask) => (ask.takes === 'quantity' ? [cell.asks.get(ask.name) ?? ''] : []));
  return [...new Set(symbols.filter((text) => checkSymbolName(text).ok))];
}

/** Tables that a cell asks about. */
export function askedTables(asks: readonly Ask[], cell: FitCell): readonly string[] {
  return asks.flatMap((ask) => (ask.takes === 'table' ? [cell.asks.get(ask.name)?.trim() ?? ''] : [])).filter((id) => id !== '');
}

export function readAsks(asks: readonly Ask[], cell: FitCell, context: CompileContext): ReadAsks {
  const symbols = new Map<string, string>();
  const fixed = new Map<string, Estimate>();
  const words = new Map<string, string>();
  const tables = new Map<string, string>();
  const problems: Problem[] = [];
  for (const ask of asks) {
    const typed = cell.asks.get(ask.name)?.trim() ?? '';
    const text = typed === '' ? typed : chosenText(ask.name, typed, context.names, problems);
    if (text === undefined) continue;
    if (ask.takes === 'table') {
      if (text !== '') tables.set(ask.name, text);
      if (text !== '' && !context.names.tables.has(text)) problems.push(tableUnknown(ask.name, text, [...context.names.tables.keys()]));
    } else if (ask.takes === 'word') {
      if (text !== '' && ask.words !== undefined && !ask.words.includes(text)) problems.push(wordUnknown(ask.name, text, ask.words));
      const word = text === '' ? ask.usual : text;
      if (word !== undefined) words.set(ask.name, word);
    } else if (text === '') {
      if (ask.usual !== undefined) fixed.set(ask.name, exactly(ask.usual));
    } else if (checkSymbolName(text).ok) {
      symbols.set(ask.name, text);
      problems.push(...dimensionProblems(ask, text, unitOf(ask, cell, context.names), context));
    } else {
      const quantity = parseQuantity(text, unitOf(ask, cell, context.names));
      if (!quantity.ok) problems.push({ ...quantity.problem, text, key: 'asks' });
      else fixed.set(ask.name, exactly(quantity.value.value));
    }
  }
  const known = asks.map(({ name }) => name);
  const warnings = [...cell.asks.keys()].filter((name) => !known.includes(name)).map((name) => askUnknown(name, known));
  return { symbols, fixed, words, tables, problems, warnings };
}

/** Whether a quantity lies where it can be asked about. */
function boundsProblem(ask: Ask, value: number): Problem | undefined {
  if (ask.takes !== 'quantity') return undefined;
  if (ask.whole === true && !Number.isInteger(value)) return notWhole(ask.name);
  const bounds = parseBounds(ask.possible, typeof ask.unit === 'string' ? unitNamed(ask.unit) : ONE);
  if (!bounds.ok || satisfies(value, bounds.value)) return undefined;
  return {
    code: 'ask-impossible',
    what: `The ${ask.name} that is asked about can’t be that: it has to be ${bounds.value.words}.`,
    mend: `Ask about another ${ask.name}.`,
    key: 'asks',
  };
}

function notWhole(name: string): Problem {
  return { code: 'ask-whole', what: `The number asked for as \`${name}\` is no whole number.`, mend: 'Write a whole number.', key: 'asks' };
}

function unitOf({ unit }: Ask & { takes: 'quantity' }, cell: FitCell, names: Names): Unit {
  return unitNamed(typeof unit === 'string' ? unit : unit(cell, names));
}

function unitNamed(text: string): Unit {
  const unit = parseUnit(text);
  return unit.ok ? unit.value : ONE;
}

/** The text itself, or the key of the option that the choice stands at. */
function chosenText(name: string, typed: string, names: Names, problems: Problem[]): string | undefined {
  const setting = fitSetting(typed);
  if ('word' in setting) return setting.word;
  const option = names.chosen.get(setting.by);
  if (option === undefined) {
    problems.push({
      code: 'ask-choice',
      what: `The ${name} is asked for by a choice “${setting.by}”, and none is made there.`,
      mend: 'Add the choice, or choose one of its options.',
      key: 'asks',
    });
  }
  return option?.key;
}

function dimensionProblems(ask: Ask, symbol: string, unit: Unit, context: CompileContext): readonly Problem[] {
  const dimension = context.dimensions.get(symbol);
  if (dimension === undefined || sameDimension(dimension, unit.dimension)) return [];
  return [{
    code: 'ask-dimension',
    what: `${symbol} is ${describeDimension(dimension)}, but the ${ask.name} asked about is ${describeDimension(unit.dimension)}.`,
    mend: 'Name another symbol, or write a quantity.',
    key: 'asks',
  }];
}

function wordUnknown(name: string, text: string, words: readonly string[]): Problem {
  return { code: 'ask-word', what: `“${text}” is no ${name} that can be asked for.`, mend: `Use one of: ${words.join(', ')}.`, key: 'asks' };
}

function tableUnknown(name: string, text: string, known: readonly string[]): Problem {
  const near = nearNames(text, known);
  return {
    code: 'ask-table',
    what: `There is no table “${text}”, which is asked for as \`${name}\`.`,
    mend: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `Use the id of a table: ${known.join(', ')}.`,
    key: 'asks',
  };
}

function askUnknown(name: string, known: readonly string[]): Problem {
  const near = nearNames(name, known);
  return {
    code: 'ask-unknown',
    what: `“${name}” is nothing that can be asked here; it is kept in the file as it is.`,
    mend: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `What can be asked: ${known.join(', ')}.`,
    key: 'asks',
  };
}

/** The values of asked symbols, put with those that are written. */
export function askedValues(
  asks: readonly Ask[],
  { symbols, fixed }: ReadAsks,
  estimates: ReadonlyMap<string, Estimate>,
): Result<ReadonlyMap<string, Estimate>> {
  const values = new Map(fixed);
  for (const [name, symbol] of symbols) {
    const estimate = estimates.get(symbol);
    if (estimate !== undefined) values.set(name, estimate);
  }
  for (const ask of asks) {
    const value = values.get(ask.name)?.value;
    const problem = value === undefined ? undefined : boundsProblem(ask, value);
    if (problem !== undefined) return { ok: false, problem };
  }
  return { ok: true, value: values };
}

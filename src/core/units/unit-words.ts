import { nearNames, type Problem, type Span } from '../problem/index.ts';
import { unitTwoReadings, unitUnknown } from './unit-problems.ts';
import { RUN_TOGETHER, TWO_READINGS, UNIT_TABLE, type UnitDefinition } from './unit-table.ts';

/** How one word of a unit was read. */
export type WordReading =
  | {
      readonly kind: 'units';
      /** One unit, or the two of a word such as `Nm`. */
      readonly definitions: readonly UnitDefinition[];
      /** Whether the reader should be shown how the word was read. */
      readonly reinterpreted: boolean;
    }
  | { readonly kind: 'problem'; readonly problem: Problem };

const BY_SPELLING = new Map<string, UnitDefinition>();
const BY_ALIAS = new Map<string, UnitDefinition>();
const BY_FOLDED = new Map<string, UnitDefinition[]>();

for (const definition of UNIT_TABLE) {
  for (const spelling of [definition.symbol, ...(definition.same ?? [])]) BY_SPELLING.set(spelling, definition);
  for (const alias of definition.aliases ?? []) BY_ALIAS.set(alias, definition);
  for (const folded of new Set([definition.symbol, ...(definition.same ?? [])].map((name) => name.toLowerCase()))) {
    BY_FOLDED.set(folded, [...(BY_FOLDED.get(folded) ?? []), definition]);
  }
}

/** The unit with this symbol; the symbol is one of our own table. */
export function definitionOf(symbol: string): UnitDefinition {
  const definition = BY_SPELLING.get(symbol);
  if (definition === undefined) throw new Error(`no unit ${symbol} in the table`);
  return definition;
}

/**
 * Reads one word of a unit. Spellings that can mean one thing only are taken; a doubtful one (`mpa`, where the case
 * of the prefix decides) and an unknown one give a problem that names the near units.
 */
export function readUnitWord(word: string, span: Span): WordReading {
  const exact = BY_SPELLING.get(word);
  if (exact !== undefined) return { kind: 'units', definitions: [exact], reinterpreted: false };
  const twoReadings = TWO_READINGS.get(word);
  if (twoReadings !== undefined) return problem(unitTwoReadings(word, twoReadings.what, twoReadings.write, span));
  const alias = BY_ALIAS.get(word.toLowerCase());
  if (alias !== undefined) return { kind: 'units', definitions: [alias], reinterpreted: true };
  const together = RUN_TOGETHER.get(word) ?? RUN_TOGETHER.get(word.toLowerCase());
  if (together !== undefined) {
    return { kind: 'units', definitions: together.map(definitionOf), reinterpreted: true };
  }
  return readInAnotherCase(word, span);
}

function readInAnotherCase(word: string, span: Span): WordReading {
  const candidates = BY_FOLDED.get(word.toLowerCase()) ?? [];
  const names = candidates.map((definition) => definition.symbol);
  const [only] = candidates;
  // A single letter in the wrong case is another unit or none (`G`, `S`, `n`): it is asked about.
  if (only === undefined || [...word].length === 1) {
    return problem(unitUnknown(word, nearUnits(word), span));
  }
  if (candidates.length > 1 || (only.casePrefix === true && word[0] !== only.symbol[0])) {
    return problem(unitTwoReadings(word, 'a small m is milli and a large M is mega', names, span));
  }
  return { kind: 'units', definitions: [only], reinterpreted: true };
}

/** Symbols of the units whose symbol or full name is near the word; a spelling near by counts for its unit. */
function nearUnits(word: string): readonly string[] {
  const bySymbol = nearNames(word, UNIT_TABLE.map((definition) => definition.symbol));
  const byAlias = nearNames(word, [...BY_ALIAS.keys()]).flatMap((alias) => BY_ALIAS.get(alias)?.symbol ?? []);
  return [...new Set([...bySymbol, ...byAlias])].slice(0, 3);
}

function problem(value: Problem): WordReading {
  return { kind: 'problem', problem: value };
}

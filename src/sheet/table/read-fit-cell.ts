import * as v from 'valibot';
import type { BodyProblem } from '../body-problem.ts';
import { present } from '../fields.ts';
import type { Fields } from '../fields.ts';
import { asksOf, type KeyOf } from '../keys.ts';
import type { FindsWord, FitCell, FitSetting } from '../types.ts';

/** Words that each setting of a fit takes; a group is named by whatever its table names it. */
export const FIT_WORDS = {
  method: ['least-squares', 'maximum-likelihood'],
  life: ['lognormal', 'weibull'],
  model: ['linear', 'quadratic', 'limit'],
  stress: ['log', 'plain'],
} as const;

/** What a fit can find; the first is what it finds where it does not say. */
export const FINDS_WORDS: readonly FindsWord[] = ['line', 'limits', 'lives', 'comparison', 'staircase', 'plan', 'weights'];

const BY = /^by\s+([\p{L}\p{N}_.-]{1,80})$/u;

interface FitReading {
  readonly unknownInside: readonly BodyProblem[];
  readonly fields: Pick<FitCell, 'kind' | 'finds' | 'of' | 'table' | 'asks' | 'method' | 'life' | 'model' | 'stress' | 'group' | 'symbols' | 'snapshot'>;
}

/** What a fit's own keys say; a setting that is none of its words is told and left out. */
export function readFitCell(fields: Fields<KeyOf<'fit'>>): FitReading {
  const snapshot = fields.mapping('snapshot');
  const of = fields.text('of');
  const finds = readFinds(fields);
  // A line without a table waits for one from another sheet.
  const needsTable = finds !== 'line' && of === undefined;
  return {
    unknownInside: fields.unknownBelow(['asks'], asksOf(finds), 'asks'),
    fields: {
      kind: 'fit',
      finds,
      table: (needsTable ? fields.required('table') : fields.text('table')) ?? '',
      asks: fields.mapping('asks') ?? new Map(),
      symbols: readSymbols(fields),
      ...present({
        of,
        method: settingOf(fields, 'method'),
        life: settingOf(fields, 'life'),
        model: settingOf(fields, 'model'),
        stress: settingOf(fields, 'stress'),
        group: settingOf(fields, 'group'),
        snapshot,
      }),
    },
  };
}

function readFinds(fields: Fields<'finds'>): FindsWord {
  const found = fields.formed('finds', v.picklist(FINDS_WORDS), (typed) => ({
    code: 'fit-finds-unknown',
    what: `A fit can’t find \`${typed}\`.`,
    mend: `Write one of: ${FINDS_WORDS.join(', ')}.`,
  }));
  return found ?? 'line';
}

/** A word as it stands, or the choice that says it. */
export function fitSetting(typed: string): FitSetting {
  const by = BY.exec(typed)?.[1];
  return by === undefined ? { word: typed } : { by };
}

function settingOf(fields: Fields<keyof typeof FIT_WORDS | 'group'>, key: keyof typeof FIT_WORDS | 'group'): FitSetting | undefined {
  const words: readonly string[] | undefined = key === 'group' ? undefined : FIT_WORDS[key];
  const setting = v.pipe(
    v.string(),
    v.transform(fitSetting),
    v.check((read) => 'by' in read || words === undefined || words.includes(read.word)),
  );
  return fields.formed(key, setting, (typed) => ({
    code: 'fit-setting-unknown',
    what: `\`${key}\` can't be \`${typed}\`.`,
    mend: `Write one of: ${words?.join(', ') ?? ''}; or \`by\` and the id of a choice.`,
  }));
}

function readSymbols(fields: Fields<'symbols'>): ReadonlyMap<string, string> {
  const symbols = new Map<string, string>();
  for (const [parameter, symbol] of fields.mapping('symbols') ?? []) {
    if (fields.isSymbol('symbols', symbol)) symbols.set(parameter, symbol);
  }
  return symbols;
}

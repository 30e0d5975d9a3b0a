import * as v from 'valibot';
import { checkSymbolName } from '../../core/formula/index.ts';
import { present } from '../fields.ts';
import type { Fields } from '../fields.ts';
import type { FitCell, FitSetting } from '../types.ts';

/** Words that each setting of a fit takes; a group is named by whatever its table names it. */
export const FIT_WORDS = {
  method: ['least-squares', 'maximum-likelihood'],
  life: ['lognormal', 'weibull'],
  model: ['linear', 'quadratic', 'limit'],
  stress: ['log', 'plain'],
} as const;

const BY = /^by\s+([\p{L}\p{N}_.-]{1,80})$/u;

export interface FitReading {
  readonly fields: Pick<FitCell, 'kind' | 'table' | 'method' | 'life' | 'model' | 'stress' | 'group' | 'symbols' | 'snapshot'>;
}

/** What a fit's own keys say; a setting that is none of its words is told and left out. */
export function readFitCell(fields: Fields): FitReading {
  const snapshot = fields.mapping('snapshot');
  return {
    fields: {
      kind: 'fit',
      table: (snapshot === undefined ? fields.required('table') : fields.text('table')) ?? '',
      symbols: readSymbols(fields),
      ...present({
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

function settingOf(fields: Fields, key: keyof typeof FIT_WORDS | 'group'): FitSetting | undefined {
  const words: readonly string[] | undefined = key === 'group' ? undefined : FIT_WORDS[key];
  const setting = v.pipe(
    v.string(),
    v.transform((typed): FitSetting => {
      const by = BY.exec(typed)?.[1];
      return by === undefined ? { word: typed } : { by };
    }),
    v.check((read) => 'by' in read || words === undefined || words.includes(read.word)),
  );
  return fields.formed(key, setting, (typed) => ({
    code: 'fit-setting-unknown',
    what: `\`${key}\` can't be \`${typed}\`.`,
    mend: `Write one of: ${words?.join(', ') ?? ''}; or \`by\` and the id of a choice.`,
  }));
}

function readSymbols(fields: Fields): ReadonlyMap<string, string> {
  const symbols = new Map<string, string>();
  for (const [parameter, symbol] of fields.mapping('symbols') ?? []) {
    const checked = checkSymbolName(symbol);
    if (checked.ok) symbols.set(parameter, symbol);
    else fields.tell('symbol-malformed', 'symbols', checked.problem.what, checked.problem.mend);
  }
  return symbols;
}

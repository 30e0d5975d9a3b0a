import type { LineSnapshot } from '../../graph/index.ts';
import { countsWords, settingWords, testedWords } from './fit-words.ts';
import type { PresentContext } from './types.ts';

/** A line that could be taken, in one sentence for a list: method, group, specimens, tested range. */
export function presentLineToTake({ fit, source }: LineSnapshot, { system }: PresentContext): string {
  const { method, life, model, stress } = fit;
  const settings = Object.entries({ method, life, model, stress, group: source.group }).map(([name, word]) => settingWords(name, word));
  return `${settings.join(', ')}; ${countsWords(fit).replace(/\.$/, '')}; tested ${testedWords(fit, system)}${source.isInvented ? '; invented' : ''}.`;
}

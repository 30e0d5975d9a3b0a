import type { BodyProblem } from '../body-problem.ts';
import { present, type Fields } from '../fields.ts';
import { keysOf } from '../keys.ts';
import type { CellSlip } from '../types.ts';

/** A short name: it stands in the list of the front matter, where commas and dots part. */
const NAME = /^[A-Za-z0-9](?:[A-Za-z0-9_-]{0,38}[A-Za-z0-9])?$/;

/** The slips of a given or a step; what can't be used is told and left out. */
export function readSlips(fields: Fields<'slips'>): { readonly slips: readonly CellSlip[] | undefined; readonly unknownInside: readonly BodyProblem[] } {
  const unknownInside: BodyProblem[] = [];
  const slips = [...(fields.mappings('slips') ?? [])].flatMap(([key, entries]): CellSlip[] => {
    unknownInside.push(...fields.unknownBelow(['slips', key], keysOf('slip'), `slip ${key}`));
    const formula = entries.get('formula') ?? '';
    if (!NAME.test(key)) {
      fields.tell('slip-name', 'slips', `A slip can’t be called \`${key}\`.`, 'Give it a short name of letters, digits and hyphens, such as `radius`.');
      return [];
    }
    if (formula === '') {
      fields.missing('slips', 'Below its name, add a line such as `formula: pi*(d/2)^4/64`.', `The slip \`${key}\` has no \`formula\` yet.`);
      return [];
    }
    const text = (name: string): string | undefined => (entries.get(name) ?? '') === '' ? undefined : entries.get(name);
    return [{ key, label: text('label') ?? key, formula, ...present({ note: text('note'), source: text('source') }) }];
  });
  return { slips: slips.length === 0 ? undefined : slips, unknownInside };
}

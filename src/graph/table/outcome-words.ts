import { nearNames } from '../../core/problem/index.ts';

/**
 * Other words for what became of a specimen, as laboratories write them in English, German, French and Spanish (common
 * practice, no published source); plain words, `plainWord`. A word for an end without fracture, as “Abbruch”, is no fracture.
 */
const OUTCOME_WORDS: Readonly<Record<string, readonly string[]>> = {
  fracture: [
    'fractured', 'failure', 'failed', 'fail', 'broken', 'broke', 'break', 'cracked', 'rupture', 'ruptured',
    'bruch', 'gebrochen', 'gebr', 'versagen', 'versagt', 'anriss', 'angerissen', 'gerissen',
    'rompu', 'rompue', 'casse', 'cassee', 'fissure', 'fissuree', 'rotura', 'roto', 'rota', 'fractura', 'fracturado', 'fracturada', 'fallo', 'falla', 'fallida', 'fisurada',
  ],
  runout: [
    'run-out', 'run out', 'ran out', 'survived', 'unbroken', 'not broken', 'not failed', 'no failure', 'no fracture',
    'durchlaufer', 'durchlaeufer', 'kein bruch', 'ohne bruch', 'nicht gebrochen', 'ungebrochen', 'uberlebt', 'ueberlebt',
    'non rompu', 'non rompue', 'non-rompu', 'non-rompue', 'non casse', 'non cassee', 'non-rupture', 'non rupture', 'sans rupture', 'survie', 'survecu',
    'sin rotura', 'sin fallo', 'no roto', 'no rota', 'no rotura', 'sobrevivio', 'sobrevive', 'superviviente',
  ],
  suspended: [
    'suspension', 'censored', 'right-censored', 'stopped', 'stopped early', 'interrupted', 'abgebrochen', 'abbruch', 'unterbrochen', 'gestoppt',
    'interrompu', 'interrompue', 'suspendu', 'suspendue', 'arrete', 'arretee', 'interrumpido', 'interrumpida', 'suspendido', 'suspendida', 'detenido', 'detenida',
  ],
  invalid: [
    'void', 'not valid', 'discarded', 'rejected', 'ungultig', 'ungueltig', 'verworfen', 'invalide', 'non valide', 'rejete', 'rejetee',
    'invalido', 'invalida', 'no valido', 'no valida', 'nulo', 'nula', 'descartado', 'descartada',
  ],
};

const meanings = new Map(
  Object.entries(OUTCOME_WORDS).flatMap(([outcome, words]) => words.map((word): [string, string] => [word, outcome])),
);

/** A word in small letters without accents and with single blanks. */
function plainWord(typed: string): string {
  return typed.normalize('NFKD').replace(/\p{M}+/gu, '').toLowerCase().replace(/\s+/g, ' ').trim();
}

/** The option that a text nearly writes, itself or another word for it: a slip is asked about, not taken for granted. */
export function optionNear(typed: string, options: readonly string[]): string | undefined {
  const [near] = nearNames(plainWord(typed), [...options, ...meanings.keys()]);
  return near === undefined ? undefined : optionMeant(near, options);
}

/** The option that a text means: itself in any capitals, or another word for one of the options. */
export function optionMeant(typed: string, options: readonly string[]): string | undefined {
  if (options.includes(typed)) return typed;
  const lower = typed.toLowerCase().replace(/\s+/g, ' ').trim();
  const same = options.find((option) => option.toLowerCase() === lower);
  if (same !== undefined) return same;
  const meant = meanings.get(plainWord(typed));
  return meant !== undefined && options.includes(meant) ? meant : undefined;
}

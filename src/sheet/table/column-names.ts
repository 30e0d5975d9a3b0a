/*
 * What laboratories call the columns of a table of specimens, in English, German, French and Spanish (common practice, no
 * published source). What may be another quantity, as a stress range or a greatest stress, is not among them.
 */

/** Plain names (`plainName`) by what they mean: the key that the tables of the standard sheets have for it. */
const NAMES: Readonly<Record<string, readonly string[]>> = {
  specimen: [
    'specimen', 'specimen id', 'specimen no', 'specimen nr', 'specimen number', 'specimen name', 'sample', 'sample id', 'test piece', 'id', 'name', 'no', 'nr',
    'probe', 'proben', 'probenname', 'probennummer', 'probenbezeichnung', 'proben nr', 'probe nr', 'proben id', 'proben no', 'prufling', 'pruefling', 'prufkorper', 'pruefkoerper',
    'eprouvette', 'n eprouvette', 'no eprouvette', 'numero d eprouvette', 'echantillon', 'repere',
    'probeta', 'n probeta', 'no probeta', 'no de probeta', 'numero de probeta', 'especimen', 'muestra',
  ],
  S: [
    's', 'stress', 'stress amplitude', 'amplitude', 'amplitude of stress', 's a', 'sa', 'sigma a', 'σa', 'σ a', 'alternating stress',
    'spannung', 'spannungsamplitude', 'spannungsausschlag', 'ausschlagspannung', 'amplitude der spannung',
    'contrainte', 'amplitude de contrainte', 'amplitude de la contrainte', 'contrainte alternee', 'contrainte d amplitude',
    'tension', 'amplitud', 'amplitud de tension', 'amplitud de la tension', 'tension alternante', 'esfuerzo', 'amplitud de esfuerzo', 'amplitud del esfuerzo', 'esfuerzo alternante',
  ],
  N: [
    'n', 'cycles', 'life', 'n f', 'nf', 'n b', 'cycles to failure', 'cycles to fracture', 'number of cycles', 'number of cycles to failure', 'fatigue life',
    'schwingspiele', 'schwingspielzahl', 'bruchschwingspielzahl', 'lastspiele', 'lastspielzahl', 'bruchlastspielzahl', 'lastwechsel', 'lastwechselzahl', 'zyklen', 'zyklenzahl', 'lebensdauer',
    'nombre de cycles', 'nombre de cycles a rupture', 'nombre de cycles a la rupture', 'cycles a rupture', 'cycles a la rupture', 'duree de vie',
    'ciclos', 'numero de ciclos', 'n de ciclos', 'no de ciclos', 'ciclos hasta rotura', 'ciclos hasta la rotura', 'ciclos hasta el fallo', 'vida', 'vida a fatiga', 'vida a la fatiga',
  ],
  outcome: [
    'result', 'status', 'event', 'outcome of the test', 'failed', 'failure', 'broken', 'fracture', 'runout',
    'ergebnis', 'ausgang', 'befund', 'bruch', 'versagen', 'durchlaufer', 'durchlaeufer', 'resultat', 'issue', 'statut', 'rupture', 'resultado', 'estado', 'rotura', 'fallo',
  ],
  group: ['material', 'series', 'batch', 'lot', 'werkstoff', 'serie', 'charge', 'los', 'gruppe', 'groupe', 'materiau', 'grupo', 'lote'],
  team: ['team name', 'laboratory team', 'mannschaft', 'equipe', 'equipo'],
  note: [
    'notes', 'remark', 'remarks', 'comment', 'comments', 'bemerkung', 'bemerkungen', 'anmerkung', 'anmerkungen', 'hinweis', 'notiz', 'kommentar',
    'remarque', 'remarques', 'commentaire', 'commentaires', 'nota', 'notas', 'observacion', 'observaciones', 'comentario', 'comentarios',
  ],
  valid: ['counts', 'gultig', 'gueltig', 'zahlt', 'valide', 'valable', 'valido', 'valida'],
};

const meanings = new Map(Object.entries(NAMES).flatMap(([key, names]) => names.map((name): [string, string] => [name, key])));

/** A name in small letters without accents; lines, points and dashes in it are blanks. */
function plainName(name: string): string {
  return name.normalize('NFKD').replace(/\p{M}+/gu, '').toLowerCase().replaceAll('ß', 'ss').replace(/[_\s.:#'’-]+/g, ' ').trim();
}

/** What a name means: the key that the standard tables have for it; undefined where it is none of the usual ones. */
export function columnMeaning(name: string): string | undefined {
  return Object.hasOwn(NAMES, name) ? name : meanings.get(plainName(name));
}

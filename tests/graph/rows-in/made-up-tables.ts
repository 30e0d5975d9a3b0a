import fc from 'fast-check';

/** A table as somebody's program might have written it, with what it says: stresses in MPa, lives in cycles. */
export interface MadeUpTable {
  readonly text: string;
  readonly names: readonly string[];
  readonly megapascals: readonly number[];
  readonly cycles: readonly number[];
  readonly outcomes: readonly string[];
}

const LANGUAGES = {
  english: { heads: { specimen: ['Specimen', 'Sample ID'], S: ['Stress amplitude', 'S', 'Stress'], N: ['Cycles to failure', 'N', 'Cycles'], outcome: ['Outcome', 'Result'] }, fracture: ['failed', 'fracture', 'Broken'], runout: ['runout', 'run-out'] },
  german: { heads: { specimen: ['Probe', 'Proben-Nr.'], S: ['Spannungsamplitude', 'Spannung'], N: ['Schwingspielzahl', 'Lastspiele'], outcome: ['Ergebnis', 'Befund'] }, fracture: ['Bruch', 'gebrochen'], runout: ['Durchläufer', 'Durchlaeufer'] },
  french: { heads: { specimen: ['Éprouvette', 'Échantillon'], S: ['Contrainte', 'Amplitude de contrainte'], N: ['Nombre de cycles', 'Cycles à rupture'], outcome: ['Résultat', 'Statut'] }, fracture: ['rupture', 'rompue'], runout: ['non-rompue', 'survie'] },
  spanish: { heads: { specimen: ['Probeta', 'Muestra'], S: ['Tensión', 'Amplitud de tensión'], N: ['Número de ciclos', 'Ciclos'], outcome: ['Resultado', 'Estado'] }, fracture: ['rotura', 'rota'], runout: ['superviviente', 'no-rota'] },
} as const;

/** 1 ksi = 6.894757293168361 MPa by definition of pound, inch and standard gravity (NIST SP 811, 2008, appendix B.8). */
const UNITS = { MPa: 1, ksi: 6.894757293168361, GPa: 1000 } as const;
const BETWEEN = { comma: ',', semicolon: ';', tab: '\t', blanks: '  ', blank: ' ' } as const;
const GROUPS = { none: '', other: 'other', space: '\u202f', apostrophe: '’' } as const;

const pick = <T extends object>(from: T): fc.Arbitrary<keyof T> => fc.constantFrom(...(Object.keys(from) as (keyof T)[]));
const specimen = fc.record({ stress: fc.integer({ min: 2000, max: 6000 }), life: fc.integer({ min: 900, max: 12_000_000 }), isRunout: fc.boolean() });

/** Delimiters, decimal marks, groups, units in the head, languages, columns in any order, quotation marks, line ends. */
export const madeUpTable: fc.Arbitrary<MadeUpTable> = fc
  .record({
    language: pick(LANGUAGES), unit: pick(UNITS), between: pick(BETWEEN), decimal: fc.constantFrom('.', ','), groups: pick(GROUPS), head: fc.nat(1), word: fc.nat(1),
    form: fc.constantFrom((name: string, unit: string) => `${name} [${unit}]`, (name: string, unit: string) => `${name} / ${unit}`, (name: string, unit: string) => `${name} (${unit})`),
    places: fc.integer({ min: 1, max: 3 }), order: fc.shuffledSubarray(['specimen', 'S', 'N', 'outcome'] as const, { minLength: 4 }), rows: fc.array(specimen, { minLength: 1, maxLength: 12 }),
    quoted: fc.boolean(), lineEnd: fc.constantFrom('\n', '\r\n'), mark: fc.constantFrom('', '\uFEFF'),
  })
  .map((made): MadeUpTable => {
    const { heads, fracture, runout } = LANGUAGES[made.language];
    const between = BETWEEN[made.between];
    const decimals = made.unit === 'GPa' ? Math.max(2, made.places) : made.places;
    const stresses = made.rows.map(({ stress }) => (stress / 10 / UNITS[made.unit]).toFixed(decimals));
    const group = GROUPS[made.groups] === 'other' ? (made.decimal === '.' ? ',' : '.') : GROUPS[made.groups];
    const grouped = (life: number): string => String(life).replace(/\B(?=(\d{3})+$)/g, group);
    const written = (field: string): string => (field.includes(between) || (made.quoted && /\s/.test(field)) || (made.between === 'blank' && /\s/.test(field)) ? `"${field}"` : field);
    const fields = made.rows.map((row, i) => ({
      specimen: `X${i + 1}`, S: (stresses[i] ?? '').replace('.', made.decimal), N: grouped(row.life), outcome: row.isRunout ? (runout[made.word] ?? '') : (fracture[made.word] ?? ''),
    }));
    const nameOf = (key: 'specimen' | 'S' | 'N' | 'outcome'): string => heads[key][made.head] ?? '';
    const head = made.order.map((key) => written(key === 'S' ? made.form(nameOf(key), made.unit) : nameOf(key)));
    const lines = [head, ...fields.map((row) => made.order.map((key) => written(row[key])))].map((line) => line.join(between));
    return {
      text: made.mark + lines.join(made.lineEnd) + made.lineEnd,
      names: fields.map((row) => row.specimen),
      megapascals: stresses.map((stress) => Number(stress) * UNITS[made.unit]),
      cycles: made.rows.map(({ life }) => life),
      outcomes: made.rows.map(({ isRunout }) => (isRunout ? 'runout' : 'fracture')),
    };
  });

import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findLines, projectFiles, read, top } from '../house/tracked.ts';

describe('rows on arquero', () => {
  it('work where text may not become code, which the rest of arquero does not', () => {
    const flags = ['--disallow-code-generation-from-strings', '--import', 'tsx', join(top, 'tests/graph/table-under-policy.ts')];
    const run = spawnSync(process.execPath, flags, { cwd: top, encoding: 'utf8' });
    expect(run.stderr).toBe('');
    expect(JSON.parse(run.stdout)).toEqual({
      policy: 'EvalError',
      usable: 3,
      rising: [340e6, 360e6, 380e6],
      places: [3, 2, 0],
      groups: [['K', 'M'], [3, 2], [2, 1], [360e6, 360e6], [800e12, 0]],
      numbers: [0, 1, 0],
      ungrouped: [3],
      kept: ['A4', 'A1'],
      broken: ['A3', 'A1'],
      derived: [680e6, 720e6, 760e6],
      gone: 'RangeError',
      fits: [true, true],
      order: [0, 2, 3, 1],
      csv: [
        'specimen,group,S [MPa],N [cycles],outcome', 'A1,K,380,41200,fracture', 'A2,M,x,1,fracture', 'A3,M,360,99000,failed', 'A4,K,340,10000000,runout', '',
      ].join('\r\n'),
      empty: 0,
    });
  }, 60_000);

  it('are the only place that speaks to arquero, and use none of its verbs that make code', () => {
    const home = 'src/core/rows/rows.ts';
    const sources = projectFiles().filter((path) => /^src\/.*\.ts$/.test(path));
    const mention = /\b(?:from|import|require)\b[^\n]*['"]arquero(?:\/[^'"]*)?['"]/;
    expect(mention.test("import { op } from 'arquero';") && mention.test('import("arquero/src/index.js")')).toBe(true);
    expect(new Set(findLines(sources, mention).map((line) => line.split(':')[0]))).toEqual(new Set([home]));
    const text = read(home);
    expect([...text.matchAll(/^import (?:type )?\{ (.*) \} from 'arquero';$/gm)].map(([, names]) => names)).toEqual(['BitSet, Reducer, table', 'ColumnTable']);
    const compiling =
      /\.(?:groupby|count|rollup|derive|filter|orderby|dedupe|fold|pivot|impute|spread|unroll|lookup|\w*join\w*|cross|union|intersect|except|ungroup|objects?|print|values)\(|\bescape\b|\b(?:of|\[) ?(?:\.\.\.)?arquero\b(?!\.)/;
    expect(compiling.test('arquero.filter((d) => d.x > 0)') && compiling.test('for (const row of arquero)')).toBe(true);
    expect(findLines([home], compiling)).toEqual([]);
  });
});

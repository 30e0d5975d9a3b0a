/** What is worked out once for a shape must be what it would be for each document of it: looked at on every sheet that ships, for edits of its cells. */
import { describe, expect, test } from 'vitest';
import { numberSheet } from '../../src/report/index.ts';
import { applyEdit, asidesIn, parseSheet, serialiseSheet, shapeOf, type SheetDocument } from '../../src/sheet/index.ts';
import { createFolds } from '../../src/view/folds.ts';
import { shipped, SHIPPED } from '../shipped.ts';

function labelled(document: SheetDocument, cellId: string): SheetDocument | undefined {
  const done = applyEdit(document, { do: 'set key', cellId, key: 'label', value: 'Another label' });
  return done.ok ? done.value : undefined;
}

function written(document: SheetDocument, source: string): SheetDocument | undefined {
  const done = applyEdit(document, { do: 'set source', blockId: document.blocks[0]?.id ?? '', source });
  return done.ok ? done.value : undefined;
}

const structureOf = (document: SheetDocument) => {
  const { equations, sections, insideSection } = numberSheet(document);
  return { equations: [...equations], sections: [...sections], insideSection: [...insideSection], asides: [...asidesIn(shapeOf(document)).of], away: [...createFolds(() => document, () => undefined).away()] };
};

describe('the shape of a document', () => {
  test.each(SHIPPED)('%s: what hangs on it is what the text read anew has', (name) => {
    const document = parseSheet(shipped(name));
    const edited = document.blocks.flatMap((block) => (block.kind === 'cell' ? labelled(document, block.id) ?? [] : [])).filter((after) => shapeOf(after) === shapeOf(document));
    // A text of three hundred cells is read anew for each that is looked at.
    for (const after of edited.filter((_after, i) => i % 5 === 0)) expect(structureOf(after)).toEqual(structureOf(parseSheet(serialiseSheet(after))));
    expect(edited.length).toBeGreaterThan(0);
  });

  test('is kept by an edit of a value, so that numbers and parts on demand are not gone through again', () => {
    const document = parseSheet(shipped('rotating-bending'));
    const done = applyEdit(document, { do: 'set key', cellId: 'd', key: 'readings', value: '7.4 mm' });
    if (!done.ok) throw new Error(done.problem.what);
    expect(done.value).not.toBe(document);
    expect(shapeOf(done.value)).toBe(shapeOf(document));
    expect(numberSheet(done.value)).toBe(numberSheet(document));
  });

  test('is another where a part on demand is called otherwise or prose is written', () => {
    const text = '# One\n\n```aside\nid: more\nlabel: More of it\nholds: What is more.\n```\n\n```given\nsymbol: x\nvalue: 3\nunit: mm\n```\n\n```end\n```\n';
    const document = parseSheet(text);
    const edits = [
      labelled(document, 'more'),
      written(document, '# One\n\n## Two\n\n'),
    ];
    for (const after of edits) {
      if (after === undefined) throw new Error('the edit was refused');
      expect(shapeOf(after)).not.toBe(shapeOf(document));
    }
  });
});

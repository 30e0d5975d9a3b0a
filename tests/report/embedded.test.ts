import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { embedDocument, extractDocument, readEmbedded } from '../../src/report/embedded.ts';
import { reportPage } from '../../src/report/page.ts';
import { LONGEST_DOCUMENT } from '../../src/sheet/index.ts';

const LONE_SURROGATE = '\ud800';

function page(documentText: string): string {
  return reportPage({ title: 'T', bodyHtml: '<p>x</p>', css: '', documentText, language: 'en-GB' });
}

function problemCode(file: string): string | undefined {
  const result = extractDocument(file);
  return result.ok ? undefined : result.problem.code;
}

/** What a file in UTF-8 keeps of a text, and what an HTML parser makes of its line ends and NULs (HTML Standard, 13.2.3.5 and 13.2.5). */
function throughAFile(text: string): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(new TextEncoder().encode(text));
}
function throughAParser(text: string): string {
  return text.replace(/\r\n?/g, '\n').replace(/\0/g, '\ufffd');
}

describe('embedDocument, extractDocument', () => {
  it('gives back any text exactly, also through UTF-8 and an HTML parser\'s own changes', () => {
    const anyText = fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: 'grapheme' }), fc.string({
      unit: fc.constantFrom('\r', '\n', '\0', '\ufeff', '<', '>', '&', '"', '\'', '\\', '\u2028', LONE_SURROGATE, '</template>', '&lt;', ']]>', '-->', 'é'),
    }));
    fc.assert(fc.property(anyText, (text) => {
      expect(extractDocument(throughAParser(throughAFile(page(text))))).toEqual({ ok: true, value: text });
    }), { numRuns: 300 });
  });

  it.each([
    ['CR LF', 'a\r\nb\r\n'],
    ['a byte order mark', '\ufeff---\ntitle: x\n---\n'],
    ['NUL', 'a\0b'],
    ['half a surrogate pair', `a${LONE_SURROGATE}b`],
    ['nothing', ''],
    ['an end tag', '</template><script>alert(1)</script>'],
    ['another template of ours', '<template id="spanlife-document" data-format="1">["x"]</template>'],
  ])('keeps %s', (_name, text) => {
    expect(extractDocument(page(text))).toEqual({ ok: true, value: text });
  });

  it('writes no sign that HTML reads, one line of the document a line of the file', () => {
    const element = embedDocument('first <b>\nsecond & "third"\n');
    const content = element.slice(element.indexOf('>') + 1, element.lastIndexOf('<'));
    expect(content).not.toMatch(/[<>&]/);
    expect(content.split('\n')).toHaveLength(4);
  });

  it('reads it after another program wrote signs as references and changed quotes in the tag', () => {
    const written = embedDocument('a "b" <c>')
      .replace('<template id="spanlife-document" data-format="1">', '<TEMPLATE data-format=1 class=\'x\' id=spanlife-document>')
      .replace(/"/g, '&quot;');
    expect(extractDocument(`<html>${written}</html>`)).toEqual({ ok: true, value: 'a "b" <c>' });
  });

  it('passes over a mention of the template in a script', () => {
    const script = '<script>const open = `<template id="spanlife-document" data-format="1">${lines}</template>`;</script>';
    expect(extractDocument(script + page('text'))).toEqual({ ok: true, value: 'text' });
  });

  it('reads from the text of the element alone', () => {
    const element = embedDocument('x\ny');
    expect(readEmbedded(element.slice(element.indexOf('>') + 1, element.lastIndexOf('<')))).toEqual({ ok: true, value: 'x\ny' });
  });

  it.each([
    ['some other page', '<!doctype html><p>hello</p>', 'not-ours'],
    ['a binary', '\0\u0001\ufffdPNG', 'not-ours'],
    ['a template of another id', '<template id="other">["x"]</template>', 'not-ours'],
    ['a template that never ends', '<template id="spanlife-document" data-format="1">["x"]', 'not-ours'],
    ['a later form', '<template id="spanlife-document" data-format="2">["x"]</template>', 'embedded-newer'],
    ['no form stated', '<template id="spanlife-document">["x"]</template>', 'embedded-newer'],
    ['a cut list', '<template id="spanlife-document" data-format="1">["x", </template>', 'embedded-broken'],
    ['not a list of texts', '<template id="spanlife-document" data-format="1">["x", 1]</template>', 'embedded-broken'],
    ['an object', '<template id="spanlife-document" data-format="1">{"0": "x"}</template>', 'embedded-broken'],
  ])('refuses %s in words', (_name, file, code) => {
    expect(problemCode(file)).toBe(code);
  });

  it('gives back the longest document that a sheet may be', () => {
    const line = `  K01,steel K,460,81493,fracture,yes,${'x'.repeat(44)}\n`;
    const text = line.repeat(Math.floor(LONGEST_DOCUMENT / line.length));
    const result = extractDocument(page(text));
    expect(result.ok && result.value === text).toBe(true);
  });

  it('refuses what is far too large before looking at it', () => {
    expect(problemCode(' '.repeat(64_000_001))).toBe('file-too-large');
    expect(problemCode(embedDocument('x'.repeat(LONGEST_DOCUMENT + 1)))).toBe('file-too-large');
  });

  // Work that grows with the square of the size would not end within the time allowed.
  it('comes to an end over files made to be slow', { timeout: 60_000 }, () => {
    expect(problemCode('<template id="spanlife-document" data-format="1">'.repeat(50_000))).toBeDefined();
    expect(problemCode('<template '.repeat(200_000))).toBe('not-ours');
    expect(problemCode('<template id="spanlife-document" data-format="1">&lt;</template>'.repeat(20_000))).toBe('embedded-broken');
  });
});

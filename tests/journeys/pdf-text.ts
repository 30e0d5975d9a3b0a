/** The words of a printed page, as one who copies them out of the file gets them (ISO 32000-1, 9.10: by each font's ToUnicode map). Enough for what Chromium writes; what Firefox does is read by another program. */
import { constants, inflateSync } from 'node:zlib';
import { printedPages } from './engines/printed.ts';
import { inFirefox } from './harness-firefox.ts';

export interface PdfPage {
  /** All words without any white space, in the order in which they are drawn. */
  readonly text: string;
  /** Bytes of drawing commands. */
  readonly size: number;
}

export function pdfPages(pdf: Buffer): readonly PdfPage[] {
  return inFirefox ? printedPages(pdf).map(({ text }) => ({ text, size: text.length })) : chromiumPages(pdf);
}

function chromiumPages(pdf: Buffer): readonly PdfPage[] {
  const file = pdf.toString('latin1');
  const starts = new Map<string, number>();
  for (const match of file.matchAll(/(?:^|\n)(\d+) 0 obj\b/g)) starts.set(match[1] ?? '', match.index + match[0].length);
  const object = (id: string): string => {
    const start = starts.get(id);
    if (start === undefined) throw new Error(`no object ${id}`);
    const rest = file.slice(start, start + 200_000);
    return rest.slice(0, /\bendobj\b|\bstream\r?\n/.exec(rest)?.index ?? rest.length);
  };
  const stream = (id: string): Buffer => {
    const head = object(id);
    const begin = (starts.get(id) ?? 0) + head.length + /^stream\r?\n/.exec(file.slice((starts.get(id) ?? 0) + head.length))![0].length;
    // The end of the compressed data is told by itself; what stands behind it belongs to the file.
    return inflateSync(pdf.subarray(begin), { finishFlush: constants.Z_SYNC_FLUSH });
  };
  const maps = new Map<string, Map<number, string>>();
  const fontMap = (id: string): Map<number, string> => {
    const known = maps.get(id);
    if (known !== undefined) return known;
    const unicode = /\/ToUnicode (\d+) 0 R/.exec(object(id))?.[1];
    const map = unicode === undefined ? new Map<number, string>() : unicodeMap(stream(unicode).toString('latin1'));
    maps.set(id, map);
    return map;
  };
  return [...file.matchAll(/\/Type \/Page\b[^s]/g)].map(({ index }) => {
    const page = file.slice(file.lastIndexOf(' obj', index), file.indexOf('endobj', index));
    const content = stream(/\/Contents (\d+) 0 R/.exec(page)?.[1] ?? '');
    const fonts = new Map([...(/\/Font\s*<<([\s\S]*?)>>/.exec(page)?.[1] ?? '').matchAll(/\/(\w+) (\d+) 0 R/g)].map(([, name = '', id = '']) => [name, id]));
    return { size: content.length, text: textOf(content.toString('latin1'), (name) => fontMap(fonts.get(name) ?? '')) };
  });
}

/** What the commands of a page show, glyph by glyph; hexadecimal strings and strings in brackets both hold two bytes a glyph. */
function textOf(content: string, mapOf: (font: string) => Map<number, string>): string {
  let map = new Map<number, string>();
  let text = '';
  for (const [, font, hex, literal] of content.matchAll(/\/ActualText\s*(?:<[^>]*>|\((?:\\[\s\S]|[^\\()])*\))|\/(\w+) [\d.]+ Tf|<([\da-fA-F]+)>|\(((?:\\[\s\S]|[^\\()])*)\)/g)) {
    if (font !== undefined) map = mapOf(font);
    if (hex === undefined && literal === undefined) continue;
    const bytes = hex === undefined ? bytesOf(literal ?? '') : [...Buffer.from(hex, 'hex')];
    for (let i = 0; i + 1 < bytes.length; i += 2) text += map.get((bytes[i] ?? 0) * 256 + (bytes[i + 1] ?? 0)) ?? '\ufffd';
  }
  return text.replace(/\s/gu, '');
}

function bytesOf(literal: string): number[] {
  const bytes: number[] = [];
  for (const [, octal, named, plain] of literal.matchAll(/\\([0-7]{1,3})|\\([\s\S])|([\s\S])/g)) {
    const names: Readonly<Record<string, number>> = { n: 10, r: 13, t: 9, b: 8, f: 12 };
    bytes.push(octal !== undefined ? Number.parseInt(octal, 8) : named !== undefined ? names[named] ?? named.charCodeAt(0) : plain?.charCodeAt(0) ?? 0);
  }
  return bytes;
}

function unicodeMap(source: string): Map<number, string> {
  const map = new Map<number, string>();
  const words = (hex: string): string => (hex.match(/.{4}/g) ?? []).map((unit) => String.fromCharCode(Number.parseInt(unit, 16))).join('');
  for (const [, block = ''] of source.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, from = '', to = ''] of block.matchAll(/<(\w+)>\s*<(\w+)>/g)) map.set(Number.parseInt(from, 16), words(to));
  }
  for (const [, block = ''] of source.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, low = '', high = '', to = ''] of block.matchAll(/<(\w+)>\s*<(\w+)>\s*<(\w+)>/g)) {
      for (let code = Number.parseInt(low, 16); code <= Number.parseInt(high, 16); code++) map.set(code, String.fromCharCode(Number.parseInt(to, 16) + code - Number.parseInt(low, 16)));
    }
  }
  return map;
}

import { fail, ok, type Problem, type Result } from '../core/problem/index.ts';
import { LONGEST_DOCUMENT } from '../sheet/index.ts';

/**
 * The document's text inside a report or working file, so that the page can take the file back byte for byte.
 *
 * It stands in a `<template>` as a JSON list of its lines. Raw or escaped text would not come back exactly: an HTML
 * parser turns CR LF into LF, drops NUL, and a file in UTF-8 cannot hold half a surrogate pair. In JSON all of these are
 * escapes, and so are `<`, `>` and `&`, so that nothing in the text can close the template or become markup; one line
 * of the document stays one line of the file, which a person can still read and rescue with any text viewer.
 */
const TEMPLATE_ID = 'spanlife-document';
const FORMAT = '1';

/** Larger files are turned away before anything in them is looked at, in UTF-16 code units. */
const LARGEST_FILE = 64_000_000;

/** The `<template>` element that carries `text`. @param sha256 fingerprint of the text, by which an altered one is told */
export function embedDocument(text: string, sha256?: string): string {
  const lines = text.split(/(?<=\n)/).map(escapedLine);
  return `<template id="${TEMPLATE_ID}" data-format="${FORMAT}"${sha256 === undefined ? '' : ` data-sha256="${sha256}"`}>[\n${lines.join(',\n')}\n]</template>`;
}

/** JSON of one line with all that HTML, UTF-8 or JavaScript could read otherwise written as an escape. */
function escapedLine(line: string): string {
  return JSON.stringify(line).replace(
    /[<>&\u007f-\u00a0\u00ad\u2028\u2029\ufeff\ufffe\uffff]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/**
 * The document's text out of a whole report or working file, without a DOM and without running anything.
 * Problems: `file-too-large`, `not-ours`, `embedded-newer`, `embedded-broken`.
 */
export function extractDocument(file: string): Result<string> {
  if (file.length > LARGEST_FILE) return fail(tooLarge('This file', LARGEST_FILE));
  let problem: Problem = {
    code: 'not-ours',
    what: 'This page does not hold a worksheet.',
    mend: 'Choose a report, a working file or a worksheet that was taken away from here.',
  };
  // A working file's script names the template too: what counts is the first one that can be read.
  for (const { attributes, content } of templates(file)) {
    const result = readEmbedded(content, attributes.get('data-format') ?? '');
    if (result.ok) return result;
    problem = result.problem;
  }
  return fail(problem);
}

/** The fingerprint that a file states of the document inside it; undefined where it states none, as files from before they were written. */
export function statedFingerprint(file: string): string | undefined {
  if (file.length > LARGEST_FILE) return undefined;
  for (const { attributes, content } of templates(file)) {
    if (readEmbedded(content, attributes.get('data-format') ?? '').ok) return attributes.get('data-sha256');
  }
  return undefined;
}

/** The same from the text inside the template, as a page finds it in its own. */
export function readEmbedded(content: string, format: string = FORMAT): Result<string> {
  if (format !== FORMAT) {
    return fail({
      code: 'embedded-newer',
      what: `The worksheet in this file is of a form that this version does not know (${format.slice(0, 20) || 'none stated'}).`,
      mend: 'Open the file by itself in a browser, or use the newest version of the page.',
    });
  }
  const lines = parseLines(content) ?? parseLines(unescapeHtml(content));
  if (lines === undefined) {
    return fail({
      code: 'embedded-broken',
      what: 'The worksheet inside this file is damaged and cannot be read.',
      mend: 'Take the file from where it came once more; an editor or a mail program may have changed it.',
    });
  }
  const text = lines.join('');
  return text.length > LONGEST_DOCUMENT ? fail(tooLarge('The worksheet in this file', LONGEST_DOCUMENT)) : ok(text);
}

function tooLarge(what: string, limit: number): Problem {
  return {
    code: 'file-too-large',
    what: `${what} is too large: more than ${limit / 1e6} million characters.`,
    mend: 'Choose a smaller file.',
  };
}

function parseLines(json: string): readonly string[] | undefined {
  try {
    const value: unknown = JSON.parse(json);
    return Array.isArray(value) && value.every((line) => typeof line === 'string') ? value : undefined;
  } catch {
    return undefined;
  }
}

/** Another program that saved the page may have written its signs as references. */
function unescapeHtml(text: string): string {
  const named: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'", nbsp: '\u00a0' };
  return text.replace(/&(?:#(\d{1,7})|#[xX]([\da-fA-F]{1,6})|(lt|gt|amp|quot|apos|nbsp));/g, (whole, decimal, hex, name) => {
    if (name !== undefined) return named[name] ?? whole;
    const code = decimal === undefined ? Number.parseInt(hex, 16) : Number(decimal);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

/** Attributes of the longest start tag of ours, and more; a longer tag is none of ours. */
const LONGEST_TAG = 500;

/** Templates with our id, one after the other: attributes by lower-case name, and the text up to the end tag. */
function* templates(file: string) {
  const opening = /<template\b/gi;
  const closing = /<\/template/gi;
  for (let match = opening.exec(file); match !== null; match = opening.exec(file)) {
    const tag = file.slice(opening.lastIndex, opening.lastIndex + LONGEST_TAG);
    const tagLength = tag.indexOf('>');
    if (tagLength < 0) continue;
    const attributes = attributesOf(tag.slice(0, tagLength));
    if (attributes.get('id') !== TEMPLATE_ID) continue;
    const start = opening.lastIndex + tagLength + 1;
    closing.lastIndex = start;
    const end = closing.exec(file);
    if (end === null) return;
    yield { attributes, content: file.slice(start, end.index) };
    opening.lastIndex = closing.lastIndex;
  }
}

function attributesOf(tag: string): ReadonlyMap<string, string> {
  const attributes = new Map<string, string>();
  for (const [, name = '', double, single, bare] of tag.matchAll(/([a-zA-Z][a-zA-Z0-9-]*)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))/g)) {
    attributes.set(name.toLowerCase(), double ?? single ?? bare ?? '');
  }
  return attributes;
}

import { describe, expect, it } from 'vitest';
import { plainEquation, renderProse, renderReport, renderSheet, renderToLive, reportPage } from '../../src/report/index.ts';
import { embedDocument } from '../../src/report/embedded.ts';
import { plainEquations } from '../../src/report/plain-equations.ts';
import { prerender } from '../../src/report/prerender.ts';
import { SHIPPED, shipped } from '../shipped.ts';
import { contextOf, fenced, given, step } from './sheet-at.ts';

/** Tags and attributes of our own HTML: a `<` or `>` that is no tag's is always written as a reference there. */
function tagsOf(page: string): readonly { readonly name: string; readonly attributes: string }[] {
  return [...page.matchAll(/<\/?([a-zA-Z!][\w-]*)([^>]*)>/g)].map(([, name = '', attributes = '']) => ({ name: name.toLowerCase(), attributes }));
}

const HTML_TAGS = new Set([
  'details', 'summary', 'i', 'sub',
  'article', 'header', 'section', 'noscript', 'div', 'p', 'span', 'h1', 'h2', 'h3', 'h4', 'dl', 'dt', 'dd', 'ul', 'ol', 'li', 'a', 'em', 'strong', 'code',
  'pre', 'mark', 'figure', 'figcaption', 'blockquote', 'hr', 'br', 'table', 'caption', 'thead', 'tbody', 'tr', 'th', 'td', 's', 'sup', 'sub', 'i', 'b',
]);
const SVG_TAGS = new Set([
  'svg', 'path', 'g', 'line', 'polygon', 'polyline', 'circle', 'rect', 'text', 'tspan', 'title', 'desc', 'defs', 'pattern', 'clippath',
]);
const MATHML_TAGS = new Set([
  'math', 'semantics', 'annotation', 'mrow', 'mi', 'mn', 'mo', 'mtext', 'mspace', 'mfrac', 'msub', 'msup', 'msubsup', 'msqrt', 'mroot',
  'mstyle', 'mphantom', 'mpadded', 'mtable', 'mtr', 'mtd', 'mover', 'munder',
]);
/** Attributes by which text could act. */
const ACTIVE = /\s(on\w+|src|srcset|srcdoc|action|formaction|data|poster|http-equiv|xlink:href)\s*=/i;

function expectHarmless(page: string): void {
  for (const { name, attributes } of tagsOf(page)) {
    expect(HTML_TAGS.has(name) || SVG_TAGS.has(name) || MATHML_TAGS.has(name), `<${name}${attributes}>`).toBe(true);
    expect(attributes).not.toMatch(ACTIVE);
    for (const [, target = ''] of attributes.matchAll(/\bhref="([^"]*)"/g)) expect(target).toMatch(/^(https?:\/\/|mailto:|#)/);
  }
}

/** Words of the page as one hears them, tags gone. */
function wordsOf(page: string): string {
  return page
    .replace(/<annotation[\s\S]*?<\/annotation>/g, '').replace(/<[^>]*>/g, ' ')
    .replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&quot;/g, '"').replace(/&#39;/g, '\'').replace(/&nbsp;/g, ' ').replace(/&amp;/g, '&')
    .replace(/[ \n]+/g, ' ');
}

describe('renderSheet', () => {
  it('renders a small sheet line by line', async () => {
    const context = await contextOf([
      '---', 'title: A small sheet', 'team: T4', '---', '', 'Prose with {=y}.', '', '## Statics', '',
      given('x', '2.00 ± 0.10 N', 'N', 'label: Load', 'note: Weigh it.'),
      step('y', '3*x', 'N', 'label: Three times'),
      fenced('check', 'id: small', 'label: Small?', 'condition: y < 1*unit(N)', 'holds: It is small.', 'otherwise: "It is {=y}, too much."'),
      fenced('checklist', 'id: safety', 'label: Safety', 'items:', '  - Guard closed', '  - text: Power off', '    done: 2026-11-20T09:12:00+01:00'),
      fenced('remark', 'id: aim', 'heading: Aim', 'text: Find *y*.'),
    ].join('\n'));
    const page = renderSheet(context);
    expectHarmless(page);
    expect(page).toMatch(/^<article class="sheet">\n<header class="title-block"><h1>A small sheet<\/h1>/);
    expect(page).toContain('<dt>Team</dt><dd>T4</dd>');
    expect(page).toContain('<p>Prose with <span class="live value">6.00\u00a0N</span>.</p>');
    expect(page).toContain('<h2><span class="number">1</span> Statics</h2>');
    expect(page).toContain('<section class="cell cell-given" id="cell-x">');
    expect(page).toContain('<span class="blank">2.00 ± 0.10 N</span>');
    expect(page).toContain('<p class="uncertainty">u = 0.10\u00a0N</p>');
    expect(page).toMatch(/<section class="cell cell-step" id="cell-y">\n<div class="number">\(1\)<\/div>/);
    expect(page).toContain('<span class="double-underlined"><span class="quantity">6.00<span class="unit">\u2009N</span></span></span>');
    expect(page).toContain('<p class="uncertainty">± 0.30\u00a0N</p>');
    expect(page).toContain('<section class="cell cell-check fails" id="cell-small">');
    expect(wordsOf(page)).toContain('Does not hold: It is 6.00\u00a0N, too much.');
    expect(page).toContain('<span class="time">2026-11-20 09:12</span>');
    expect(page).toContain('1 of 2 checklist items are open.');
    expect(page).toContain('<h3>Aim</h3>');
    expect(page).toContain('<p>Find <em>y</em>.</p>');
  });

  it('shows each problem at its place, with what and how to mend it, and the others alive', async () => {
    const page = renderSheet(await contextOf(step('y', '2*(1 + ', '1', 'label: Broken') + step('z', 'y', '1') + step('w', '4', '1')));
    expectHarmless(page);
    const [, broken = '', waiting = '', alive = ''] = page.split('<section ');
    expect(broken).toMatch(/<div class="problem"><p><span class="what">[^<]+<\/span> <span class="mend">[^<]+<\/span><\/p><p class="where"><code>/);
    expect(waiting).toContain('problem upstream');
    expect(alive).toContain('double-underlined');
    expect(page).toContain('To be mended: <a href="#cell-y">Broken</a>');
  });

  it('keeps what is still asked to itself', async () => {
    const page = renderSheet(await contextOf(given('x', '7 N', 'N') + step('y', '13*x', 'N', 'asked: true') + '\nSo {=y}.\n'));
    expect(page).not.toContain('91');
    expect(wordsOf(page)).toContain('your own result first');
  });

  it('puts both results side by side once the reader has theirs', async () => {
    const page = renderSheet(await contextOf(given('x', '7 N', 'N') + step('y', '13*x', 'N', 'asked: true', 'answer: 182 N', 'tries: 1')));
    expect(wordsOf(page)).toContain('Yours: 182 N');
    expect(wordsOf(page)).toContain('Yours is 2.00 times the sheet’s.');
    expect(page).toContain('91');
  });

  it('shows what it does not understand as it is written', async () => {
    const page = renderSheet(await contextOf(fenced('hologram', 'colour: <blue>')));
    expectHarmless(page);
    expect(wordsOf(page)).toMatch(/hologram.* is not a kind of cell that this version understands\./);
    expect(wordsOf(page)).toContain('colour: <blue>');
  });
});

const HOSTILE = [
  '<script>alert(1)</script>', '</template><img src=x onerror=alert(1)>', '" onmouseover="alert(1)', '\' onfocus=\'alert(1)', ']]>', '-->', '<!--',
  '{=x}', '{=<b>}', '{={=x}}', '{=__proto__}', '&lt;script&gt;', '</style><script>', '</textarea></title></svg></math>', '\\href{javascript:alert(1)}{x}',
  '\\htmlData{x=y}{z}', '$\\includegraphics{x}$', '{{constructor}}', '\u202e\u0000\ud800', '](javascript:alert(1))',
];

describe('hostile text', () => {
  const quoted = (text: string) => JSON.stringify(text);

  it.each(HOSTILE)('%j in any field stays text', async (hostile) => {
    const q = quoted(hostile);
    const text = [
      '---', `title: ${q}`, `team: ${q}`, `${q}: ${q}`, '---', '', `Prose ${hostile} and **${hostile}**`, '', `## ${hostile}`, '', `[link](${hostile})`, '',
      fenced('given', 'symbol: x', `label: ${q}`, `value: ${q}`, `unit: ${q}`, `note: ${q}`, `instrument: ${q}`, `plausible: ${q}`),
      fenced('given', `symbol: ${q}`, `id: ${q}`, 'value: 1', 'unit: "1"'),
      fenced('step', 'symbol: y', `id: ${quoted(`${hostile}2`)}`, `label: ${q}`, `formula: ${q}`, `unit: ${q}`, `answer: ${q}`),
      fenced('step', `symbol: ${q}`, 'formula: "1 + 1"', `unit: ${q}`, `${q}: 1`, `note: ${q}`),
      fenced('check', 'id: c', `label: ${q}`, 'condition: 1 < 2', `holds: ${q}`, `otherwise: ${q}`),
      fenced('choice', 'id: ch', `label: ${q}`, `chosen: ${q}`, 'options:', `  - key: ${q}`, `    label: ${q}`, `    source: ${q}`, `    note: ${q}`,
        `    missing: ${q}`, '    sets:', `      ${q}: ${q}`, `      y: ${q}`),
      fenced('checklist', 'id: cl', `label: ${q}`, 'items:', `  - text: ${q}`, `    done: ${q}`),
      fenced('remark', 'id: r', `heading: ${q}`, `text: ${q}`),
      fenced('figure', 'id: f', `label: ${q}`, 'drawing: free-body', 'values:', `  span: ${q}`, `  ${q}: ${q}`),
      fenced('figure', 'id: f2', `drawing: ${q}`),
      fenced(hostile.replaceAll('`', ''), hostile),
    ].join('\n');
    const context = await contextOf(text);
    const report = renderReport(context);
    const body = renderSheet(context);
    for (const made of [body, report]) {
      expectHarmless(made);
      expect(made).not.toMatch(/\bNaN\b|\[object|>undefined</);
    }
    const page = reportPage({ title: hostile, bodyHtml: body, css: '', documentText: text, language: 'en-GB', takenAway: hostile });
    expect(page.match(/<\/?template/g)).toEqual(['<template', '</template']);
    expect(page).not.toMatch(/<script/i);
  });
});

describe('renderProse', () => {
  async function prose(text: string): Promise<string> {
    return renderProse(text, await contextOf(given('x', '2 mm', 'mm')), { numbers: [] });
  }

  it.each([
    'javascript:alert(1)', 'JaVaScRiPt:alert(1)', 'data:text/html,x', 'vbscript:x', 'file:///etc/passwd', '//elsewhere.example/x', 'page.html',
    '&#106;avascript:alert(1)', 'java\tscript:x',
  ])('makes no link of %s', async (target) => {
    expect(await prose(`[a](${target}) [b](<${target}>)\n\n[r]: ${target}\n\n[r]`)).not.toContain('<a ');
  });

  it('links to the web, to mail and within the page, and lets none look back', async () => {
    expect(await prose('[a](https://example.org) [b](mailto:a@example.org) [c](#cell-x)')).toBe(
      '<p><a href="https://example.org" rel="noopener noreferrer">a</a> <a href="mailto:a@example.org" rel="noopener noreferrer">b</a> '
      + '<a href="#cell-x" rel="noopener noreferrer">c</a></p>\n',
    );
  });

  it('loads no picture and no HTML', async () => {
    const page = await prose('![x](https://example.org/x.png) <b>bold</b> <img src=x>');
    expect(page).not.toMatch(/<img|<b>/);
  });

  it('puts live values in, but not into code', async () => {
    expect(await prose('**{=x}** and `{=x}`')).toBe('<p><strong><span class="live value">2\u00a0mm</span></strong> and <code>{=x}</code></p>\n');
    // So many brackets are no links: they stay text, at once.
    expect(await prose('[a](https://example.org) '.repeat(2001))).not.toContain('<a ');
    expect(await prose('{=x}{=x')).toBe('<p><span class="live value">2\u00a0mm</span>{=x</p>\n');
  });

  it('does not read a value as Markdown', async () => {
    const context = await contextOf(given('x', '2 mm', 'mm'));
    expect(renderProse('{=*a*}', context)).toBe('<p><span class="live missing">⟨*a*: not on this sheet⟩</span></p>\n');
  });
});

describe('the start sheet', () => {
  const text = shipped('rotating-bending');

  it('is rendered whole for the page, without a problem and without a number that is none', async () => {
    const { bodyHtml, title, template } = await prerender(text);
    expect(title).toBe('Rotating bending, two load points');
    expect(template).toBe(embedDocument(text));
    expectHarmless(bodyHtml);
    expect(bodyHtml).not.toMatch(/\bNaN\b|Infinity|undefined|katex-error|class="problem"/);
    expect(bodyHtml.match(/class="double-underlined"/g)?.length).toBeGreaterThan(40);
    expect(bodyHtml.match(/<svg\b[^>]*class="drawing/g)?.length).toBeGreaterThanOrEqual(4);
  });

  it('holds its equations as MathML alone, so that the page stays small', async () => {
    const { bodyHtml } = await prerender(text);
    expect(bodyHtml).not.toMatch(/katex|<annotation/);
    expect(bodyHtml.match(/<math\b/g)?.length).toBeGreaterThan(150);
    expect(bodyHtml.match(/<math\b/g)?.length).toBe(bodyHtml.match(/<\/math>/g)?.length);
    expect(bodyHtml.match(/<span\b/g)?.length).toBe(bodyHtml.match(/<\/span>/g)?.length);
  });
});

describe('a sheet that a script brings to life', () => {
  const scripted = (page: string): string => page.replace(/<noscript>[\s\S]*?<\/noscript>/g, '');
  const read = (text: string): string => text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&#x27;', '\'').replaceAll('&amp;', '&');

  it.each(SHIPPED)('has each equation in the form that the script would make of its TeX (%s)', async (name) => {
    const page = scripted(renderToLive(await contextOf(shipped(name))));
    const named = [...page.matchAll(/<math data-tex="([^"]*)"([\s\S]*?<\/math>)/g)];
    expect(named.length).toBe(page.match(/<math\b/g)?.length ?? 0);
    for (const [, tex = '', rest = ''] of named) expect(`<math${rest}`, tex).toBe(plainEquation(read(tex)));
  });

  it.each(SHIPPED)('holds for who has no scripts what `renderSheet` gives, part for part (%s)', async (name) => {
    const context = await contextOf(shipped(name));
    const whole = renderToLive(context).replace(/<\/?noscript>/g, '').replace(/ data-tex="[^"]*"/g, '');
    expect(whole).toBe(plainEquations(renderSheet(context)));
  });

  it('keeps parts on demand from the reading of a page with scripts, whatever stands in them', async () => {
    const hostile = '</noscript><img src=x onerror=alert(1)>';
    const context = await contextOf([
      '# One', '', given('x', '2 mm', 'mm'), fenced('aside', 'id: more', 'label: More'), `Words ${hostile} [a](<https://example.org/${hostile}> "${hostile}") {=x}`,
      given('y', '3 mm', 'mm', `label: '${hostile}'`, `note: '${hostile}'`), fenced('end', ''), given('z', '4 mm', 'mm'),
    ].join('\n'));
    const page = renderToLive(context);
    expect(page.match(/<\/?noscript>/g)).toEqual(['<noscript>', '</noscript>']);
    expect([...scripted(page).matchAll(/id="cell-(\w+)"/g)].map(([, id]) => id)).toEqual(['x', 'more', 'z']);
    expectHarmless(page);
  });
});

describe('problems of one cell', () => {
  it('are at most six lines, the last of which counts the rest', async () => {
    const keys = Array.from({ length: 40 }, (_, i) => `odd_${i}: x`);
    const page = renderSheet(await contextOf(given('a', '2 mm', 'mm', ...keys)));
    expect(page.match(/class="problem warning"/g)).toHaveLength(6);
    expect(page).toContain('35 more places in this cell want a look.');
  });

  it('set what they quote as it is typed', async () => {
    const page = renderSheet(await contextOf(fenced('step', 'symbol: a')));
    expect(page).toMatch(/<code>formula<\/code>/);
    expect(page).not.toContain('`');
  });
});

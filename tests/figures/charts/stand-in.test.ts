import { describe, expect, test } from 'vitest';
import { createStandIn, innerSvg, ownMarkup } from '../../../src/figures/charts/stand-in.ts';

const SVG = 'http://www.w3.org/2000/svg';

describe('the stand-in for a document', () => {
  test('writes elements, places and text as well-formed SVG', () => {
    const page = createStandIn();
    const svg = page.createElementNS(SVG, 'svg');
    const group = svg.appendChild(page.createElementNS(SVG, 'g'));
    group.setAttribute('class', 'marks');
    const last = group.appendChild(page.createElementNS(SVG, 'circle'));
    last.setAttribute('cx', 1.23456);
    const words = page.createElementNS(SVG, 'text');
    words.append(page.createTextNode('a < b & "c"'));
    group.insertBefore(words, last);
    expect(innerSvg(svg)).toBe('<g class="marks"><text>a &lt; b &amp; &quot;c&quot;</text><circle cx="1.23"/></g>');
  });

  test('keeps places and classes, and leaves looks, styles and words for screen readers out', () => {
    const page = createStandIn();
    const svg = page.createElementNS(SVG, 'svg');
    svg.append(page.createElementNS(SVG, 'style'));
    const mark = svg.appendChild(page.createElementNS(SVG, 'path'));
    for (const [name, value] of Object.entries({ fill: 'red', 'stroke-width': 2, 'aria-label': 'dot', onclick: 'x()', 'font-family': 'sans-serif', d: 'M0,0L1,1', 'fill-opacity': 0.4 })) {
      mark.setAttribute(name, value);
    }
    mark.style.setProperty();
    expect(innerSvg(svg)).toBe('<path d="M0,0L1,1" fill-opacity="0.4"/>');
  });

  test('a shift that depends on the screen is left out; other shifts stay', () => {
    const page = createStandIn();
    const svg = page.createElementNS(SVG, 'svg');
    for (const shift of ['translate(0.5,0.5)', 'translate(0,0.5)', 'translate(10.5,0.5)']) {
      svg.appendChild(page.createElementNS(SVG, 'g')).setAttribute('transform', shift);
    }
    expect(innerSvg(svg)).toBe('<g/><g/><g transform="translate(10.5,0.5)"/>');
  });

  test('attributes are escaped, numbers as small as nothing become zero, markup of our own passes', () => {
    const page = createStandIn();
    const svg = page.createElementNS(SVG, 'svg');
    svg.append(ownMarkup('<line class="x"/>'));
    const mark = svg.appendChild(page.createElementNS(SVG, 'g'));
    mark.setAttribute('class', 'a"><script>');
    mark.setAttribute('d', 'M1e-17,2.5');
    expect(innerSvg(svg)).toBe('<line class="x"/><g class="a&quot;&gt;&lt;script&gt;" d="M0,2.5"/>');
    mark.removeAttribute('class');
    expect([mark.hasAttribute('class'), mark.getAttribute('class'), mark.getAttribute('d')]).toEqual([false, null, 'M1e-17,2.5']);
    svg.textContent = 'only this';
    expect(innerSvg(svg)).toBe('only this');
  });
});

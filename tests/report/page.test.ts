import { describe, expect, it } from 'vitest';
import { reportPage } from '../../src/report/page.ts';

const parts = { title: 'Shaft <b>& "co"', bodyHtml: '<article class="sheet">body</article>', css: 'p { color: red }', documentText: 'text', language: 'en-GB' };

describe('reportPage', () => {
  it('writes a report without script, whose policy allows none and nothing from anywhere', () => {
    const page = reportPage({ ...parts, takenAway: '20 November 2026' });
    expect(page).toMatch(/^<!doctype html>\n<html lang="en-GB">/);
    expect(page).not.toMatch(/<script/i);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1] ?? '';
    expect(policy.split('; ')).toEqual([
      'default-src &#39;none&#39;', 'script-src &#39;none&#39;', 'style-src &#39;unsafe-inline&#39;', 'font-src data:',
      'img-src data:', 'base-uri &#39;none&#39;', 'form-action &#39;none&#39;',
    ]);
    expect(page).toContain('<title>Shaft &lt;b&gt;&amp; &quot;co&quot;</title>');
    expect(page).toContain('<main id="sheet"><article class="sheet">body</article></main>');
    expect(page).toContain('<footer class="print-footer">Shaft &lt;b&gt;&amp; &quot;co&quot;, 20 November 2026</footer>');
  });

  it('states the policy before anything that it governs', () => {
    const page = reportPage(parts);
    expect(page.indexOf('Content-Security-Policy')).toBeLessThan(page.indexOf('<style'));
  });

  it('puts a working file\'s script and policy in as handed over', () => {
    const elements = '<script type="module">let a = 1 < 2;</script>';
    const page = reportPage({ ...parts, script: { elements, policy: "default-src 'none'; script-src 'sha256-abc'" } });
    expect(page).toContain(elements);
    expect(page).toContain('content="default-src &#39;none&#39;; script-src &#39;sha256-abc&#39;"');
    expect(page.indexOf('spanlife-document')).toBeLessThan(page.indexOf(elements));
  });

  it('lets no style sheet end its element', () => {
    const page = reportPage({ ...parts, css: 'a::after { content: "</style><script>alert(1)</script>" }' });
    expect(page.match(/<\/style/gi)).toHaveLength(1);
  });

  it('refers to nothing outside itself', () => {
    expect(reportPage(parts)).not.toMatch(/\b(src|href)=|url\(|@import/i);
  });
});

import { nothing, type TemplateResult } from 'lit-html';
import { broughtOnce } from '../core/remembered/index.ts';
import { html, partWords } from '../view/index.ts';
import type { Teams } from './teams-types.ts';

/** Everything for a class, before anybody has asked for it: it is brought as it is unfolded. @param failed told in words where it does not come */
export function teamsLater(bring: () => Promise<Teams>, failed: (words: string) => void): Teams {
  let there: Teams | undefined;
  const brought = broughtOnce(async () => (there = await bring()));
  return {
    unfold: (open) => void brought().then(({ unfold }) => unfold(open), (error: unknown) => failed(partWords(error))),
    panel: (context) => there?.panel(context),
  };
}

/** For a class: folded until somebody asks for it. */
export function classTemplate(panel: TemplateResult | undefined, unfold: (open: boolean) => void): TemplateResult {
  const isOpen = panel !== undefined;
  return html`<h2 id="desk-class">For a class</h2>
    <ul aria-labelledby="desk-class"><li><button type="button" aria-expanded=${String(isOpen)} aria-controls=${isOpen ? 'class-files' : nothing} @click=${() => unfold(!isOpen)}>A file for each team</button>
      <span class="help">Working files with numbers of their own, drawn from ranges, in one archive</span></li></ul>
    ${isOpen ? html`<div id="class-files" class="class-files">${panel}</div>` : nothing}`;
}

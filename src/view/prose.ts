import { noChange, type ElementPart } from 'lit-html';
import { Directive, directive } from 'lit-html/directive.js';
import { fragmentOf } from './markup.ts';

class SetProse extends Directive {
  private shown: string | undefined;

  render(_ownHtml: string): unknown {
    return noChange;
  }

  override update({ element }: ElementPart, [ownHtml]: [string]): unknown {
    if (ownHtml !== this.shown) {
      this.shown = ownHtml;
      element.replaceChildren(fragmentOf(ownHtml));
    }
    return noChange;
  }
}

/** `<div ${prose(renderProse(…))}></div>`: the element's content is prose that the report layer rendered. */
export const prose = directive(SetProse);

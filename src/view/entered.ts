import { noChange, type PropertyPart } from 'lit-html';
import { setCommittedValue } from 'lit-html/directive-helpers.js';
import { Directive, directive, PartType, type PartInfo } from 'lit-html/directive.js';

/** What a field last showed of the document. */
class Entered extends Directive {
  private last: string | undefined;

  constructor(part: PartInfo) {
    super(part);
    if (part.type !== PartType.PROPERTY) throw new Error('entered() stands behind .value=');
  }

  render(value: string): string {
    return value;
  }

  override update(part: PropertyPart, [value]: [string]): unknown {
    const field = part.element as HTMLInputElement | HTMLTextAreaElement;
    const isBeingTyped = value === this.last && field === document.activeElement;
    this.last = value;
    if (isBeingTyped || field.value === value) return noChange;
    // Set even where it is what was set last: the field may hold something else by now.
    setCommittedValue(part);
    return value;
  }
}

/**
 * `.value=${entered(text)}` for a field that enters what was typed only when it is left. Its line may be drawn anew while somebody types in it, since something else
 * has changed: what stands in it is let alone as long as the document says what it said.
 */
export const entered = directive(Entered);

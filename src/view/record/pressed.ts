import { nothing, type TemplateResult } from 'lit-html';
import { html } from '../template.ts';

/** A press that has begun at a button, in milliseconds of the wall clock; `lifted` on the clock that nobody sets. */
export interface Down {
  readonly at: number;
  readonly lifted?: number;
}

/** The two clocks of a page at one moment, and how long ago the event happened that is only heard now. */
export interface Heard {
  readonly wall: number;
  readonly steady: number;
  readonly late: number;
}

/** A click comes so soon after the finger was lifted or not at all, ms. */
const LONGEST_TO_CLICK = 1000;
/** So long a page may be busy before it hears a press, ms; more than that is a clock that was set. */
const LONGEST_LATE = 10_000;

/** When a press began that is heard now. */
export function downAt({ wall, late }: Heard): Down {
  return { at: wall - (late > 0 && late < LONGEST_LATE ? late : 0) };
}

/** What a click stamps: when the finger came down; a click without a press before it, as some voices make one, its own time. */
export function stampedAt(down: Down | undefined, heard: Heard): number {
  if (down === undefined || (down.lifted !== undefined && heard.steady - down.lifted > LONGEST_TO_CLICK)) return downAt(heard).at;
  return down.at;
}

/** By button, since a line may be drawn anew while it is pressed. */
const downs = new WeakMap<EventTarget, Down>();

interface StampButton {
  readonly label: string;
  readonly name?: string;
  readonly describedBy?: string;
  readonly classes?: string;
  readonly now: () => Date;
  readonly act: (at: Date) => void;
}

/** A button whose press happened when the finger, or the key, came down on it. */
export function stampButton({ label, name, describedBy, classes = '', now, act }: StampButton): TemplateResult {
  const begin = (event: Event): void => void (event.currentTarget && downs.set(event.currentTarget, downAt(heardAt(event, now))));
  const forget = ({ currentTarget }: Event): void => void (currentTarget && downs.delete(currentTarget));
  const lift = ({ currentTarget }: Event): void => {
    const down = currentTarget && downs.get(currentTarget);
    if (currentTarget && down) downs.set(currentTarget, { ...down, lifted: performance.now() });
  };
  const leave = (event: PointerEvent): void => {
    // A finger keeps what it came down on; a mouse that goes elsewhere presses nothing here.
    if (event.pointerType === 'mouse') forget(event);
  };
  const key = (event: KeyboardEvent): void => {
    if (!event.repeat && (event.key === 'Enter' || event.key === ' ')) begin(event);
  };
  const click = (event: Event): void => {
    const at = stampedAt(event.currentTarget ? downs.get(event.currentTarget) : undefined, heardAt(event, now));
    forget(event);
    act(new Date(at));
  };
  return html`<button type="button" class="press ${classes}" aria-label=${name ?? nothing} aria-describedby=${describedBy ?? nothing} @pointerdown=${begin} @pointerup=${lift}
    @pointercancel=${forget} @pointerleave=${leave} @keydown=${key} @click=${click}>${label}</button>`;
}

function heardAt({ timeStamp }: Event, now: () => Date): Heard {
  const steady = performance.now();
  return { wall: now().getTime(), steady, late: steady - timeStamp };
}

import { describe, expect, it } from 'vitest';
import { downAt, stampedAt, type Heard } from '../../src/view/record/pressed.ts';

const heard = (wall: number, steady = wall, late = 0): Heard => ({ wall, steady, late });

describe('what a press stamps', () => {
  it('is when the finger came down, not when it was lifted', () => {
    const down = downAt(heard(1000));
    expect(stampedAt({ ...down, lifted: 4900 }, heard(5000))).toBe(1000);
    // A key has no lifting before its click.
    expect(stampedAt(down, heard(5000))).toBe(1000);
  });

  it('is when it happened, though the page was busy and heard of it late', () => {
    expect(downAt(heard(5000, 5000, 800)).at).toBe(4200);
    // Clocks that disagree by more are not believed.
    expect([downAt(heard(5000, 5000, 60_000)).at, downAt(heard(5000, 5000, -3)).at, downAt(heard(5000, 5000, Number.NaN)).at]).toEqual([5000, 5000, 5000]);
  });

  it('is the click’s own time where no press came before it, or one long lifted', () => {
    expect(stampedAt(undefined, heard(5000))).toBe(5000);
    expect(stampedAt({ at: 1000, lifted: 2000 }, heard(9000))).toBe(9000);
  });
});

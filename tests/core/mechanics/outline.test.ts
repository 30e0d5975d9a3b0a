import { describe, expect, it } from 'vitest';
import { crossesItself, isInside } from '../../../src/core/mechanics/index.ts';

describe('an outline', () => {
  const square = [{ x: 0, y: 0 }, { x: 4, y: 0 }, { x: 4, y: 4 }, { x: 0, y: 4 }];
  it('crosses itself as a bow does', () => {
    expect(crossesItself(square)).toBe(false);
    expect(crossesItself([square[0], square[2], square[1], square[3]].flatMap((point) => point ?? []))).toBe(true);
    expect(crossesItself(square.slice(0, 3))).toBe(false);
  });
  it('holds what lies in it', () => {
    expect(isInside({ x: 2, y: 3.9 }, square)).toBe(true);
    expect(isInside({ x: 2, y: 4.1 }, square)).toBe(false);
    expect(isInside({ x: -1, y: 2 }, square)).toBe(false);
  });
});

import { describe, expect, it } from 'vitest';
import { createAwake } from '../../src/view/record/awake.ts';

/** A browser that keeps the screen on, as the Screen Wake Lock API describes it: a lock goes with a page that is hidden. */
function browser() {
  const state = { isVisible: true, isRefusing: false, on: 0, asked: 0 };
  let releases: (() => void)[] = [];
  const awake = createAwake({
    request: async () => {
      state.asked += 1;
      if (state.isRefusing) throw new DOMException('low battery', 'NotAllowedError');
      state.on += 1;
      let isOver = false;
      const over: (() => void)[] = [];
      const release = (): void => {
        if (isOver) return;
        isOver = true;
        state.on -= 1;
        for (const hear of over) hear();
      };
      releases.push(release);
      return { release: async () => release(), addEventListener: (_name, hear) => void over.push(hear) };
    },
  }, () => state.isVisible);
  const hide = (): void => {
    state.isVisible = false;
    for (const release of releases) release();
    releases = [];
  };
  return { awake, state, hide, rest: () => new Promise<void>((done) => setTimeout(done)) };
}

describe('the screen', () => {
  it('stays on while a test runs, and no longer', async () => {
    const { awake, state, rest } = browser();
    awake.want(true);
    awake.want(true);
    await rest();
    expect([state.on, state.asked]).toEqual([1, 1]);
    awake.want(false);
    await rest();
    expect(state.on).toBe(0);
  });

  it('is kept on anew when the page is shown again, and not while it is hidden', async () => {
    const { awake, state, hide, rest } = browser();
    awake.want(true);
    await rest();
    hide();
    awake.look();
    await rest();
    expect([state.on, state.asked]).toEqual([0, 1]);
    state.isVisible = true;
    awake.look();
    await rest();
    expect([state.on, state.asked]).toEqual([1, 2]);
  });

  it('is let go where the test ended while the browser was still asked', async () => {
    const { awake, state, rest } = browser();
    awake.want(true);
    awake.want(false);
    await rest();
    expect([state.asked, state.on]).toEqual([1, 0]);
  });

  it('goes off where the browser refuses, which is asked again later, or has no such thing', async () => {
    const { awake, state, rest } = browser();
    state.isRefusing = true;
    awake.want(true);
    await rest();
    state.isRefusing = false;
    awake.look();
    await rest();
    expect([state.on, state.asked]).toEqual([1, 2]);
    const none = createAwake(undefined, () => true);
    none.want(true);
    none.dispose();
  });
});

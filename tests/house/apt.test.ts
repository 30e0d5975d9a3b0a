/** The installation of a browser beside another one: words of apt-get 2.6 (Debian 12), as it printed them. */
import { expect, test, vi } from 'vitest';
import { aptGetInTurn, type Attempt } from '../../.scripts/apt.mjs';

const LOCKED: Attempt = {
  status: 100,
  said: 'E: Could not get lock /var/lib/apt/lists/lock. It is held by process 4127 (apt-get)\nE: Unable to lock directory /var/lib/apt/lists/\n',
};
const DONE: Attempt = { status: 0, said: '' };

/** A run in which apt-get answers these in turn, the last one for ever, and time is only counted. */
async function inTurn(...answers: readonly Attempt[]) {
  const lines: string[] = [];
  let tries = 0;
  let seconds = 0;
  const succeeded = await aptGetInTurn(['update'], {
    attempt: () => answers[Math.min((tries += 1), answers.length) - 1] ?? DONE,
    say: (line) => lines.push(line),
    wait: async (some) => void (seconds += some),
  });
  return { succeeded, tries, seconds, lines };
}

test('waits while another installation holds the lock, and says so once', async () => {
  expect(await inTurn(LOCKED, LOCKED, LOCKED, DONE)).toEqual({
    succeeded: true, tries: 4, seconds: 15, lines: [expect.stringContaining('Waiting for it to end, at most 600 s')],
  });
});

test('does not wait for ever: after ten minutes it says who holds the lock', async () => {
  const { succeeded, seconds, lines } = await inTurn(LOCKED);
  expect([succeeded, seconds]).toEqual([false, 600]);
  expect(lines.at(-1)).toMatch(/after 600 s:\nE: Could not get lock .* held by process 4127/);
});

test('does not wait for what waiting cannot mend', async () => {
  const written = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
  expect(await inTurn({ status: 100, said: 'E: Unable to locate package chromium\n' })).toEqual({ succeeded: false, tries: 1, seconds: 0, lines: [] });
  expect(written).toHaveBeenCalledWith('E: Unable to locate package chromium\n');
});

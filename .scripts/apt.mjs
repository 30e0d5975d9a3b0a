// Debian's package installation, which may be at work already: a machine that has just started often updates itself.
import { spawnSync } from 'node:child_process';
import { setTimeout as pause } from 'node:timers/promises';

const heldByAnother = /could not get lock|unable to (?:lock|acquire)|is held by process/i;

/** apt-get without questions: its exit status, and what it said on the stream for errors. */
function aptGet(args) {
  const { status, stderr, error } = spawnSync('apt-get', args, {
    stdio: ['ignore', 'inherit', 'pipe'],
    encoding: 'utf8',
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive', LC_ALL: 'C' },
  });
  return { status, said: error === undefined ? stderr : error.message };
}

/**
 * Runs apt-get and gives whether it succeeded. Where another installation holds the system's lock it is tried again until that one is
 * done, at most `longest` seconds.
 */
export async function aptGetInTurn(args, { longest = 600, every = 5, attempt = aptGet, say = console.log, wait = (seconds) => pause(seconds * 1000) } = {}) {
  for (let waited = 0; ; waited += every) {
    const { status, said } = attempt(args);
    if (status === 0) return true;
    if (!heldByAnother.test(said)) {
      process.stderr.write(said);
      return false;
    }
    if (waited >= longest) {
      say(`Another package installation still holds the system's lock after ${longest} s:\n${said.trim()}\nLet it end, or end it, and try again.`);
      return false;
    }
    if (waited === 0) say(`Another package installation holds the system's lock. Waiting for it to end, at most ${longest} s …`);
    await wait(every);
  }
}

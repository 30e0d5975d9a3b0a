// What our times are compared with, where it is an ordinary package of the system: how to tell that it is there, and how to get it.
import { spawnSync } from 'node:child_process';
import { aptGetInTurn } from './apt.mjs';
import { isRoot, onPath } from './browser.mjs';

/** By name: commands of which the first that runs without fault is the peer's, what to run it with to see, and its packages. */
const peers = {
  numpy: { commands: ['python3', '/usr/bin/python3'], look: ['-c', 'import numpy'], packages: ['python3-numpy'] },
  'g++': { commands: ['g++'], look: ['--version'], packages: ['g++'] },
  survival: { commands: ['Rscript'], look: ['-e', 'library(survival)'], packages: ['r-base-core', 'r-cran-survival'] },
};

function findPeer(name) {
  const { commands, look } = peers[name];
  return commands.find((command) => spawnSync(command, look, { stdio: 'ignore' }).status === 0);
}

/** The command that runs a peer; installed by apt-get as root where it is missing. Undefined where it can't be had. */
export async function ensurePeer(name) {
  const found = findPeer(name);
  if (found !== undefined || process.platform !== 'linux' || !isRoot() || onPath(['apt-get']) === undefined) return found;
  console.log(`Installing ${peers[name].packages.join(', ')} (apt-get), to compare with …`);
  if (await aptGetInTurn(['update', '-qq'])) await aptGetInTurn(['install', '-y', '-qq', '--no-install-recommends', ...peers[name].packages]);
  return findPeer(name);
}

/** What to install where the bench can't. */
export const peerPackages = (name) => peers[name].packages.join(' ');

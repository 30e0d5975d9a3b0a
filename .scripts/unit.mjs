// npm run unit [-- FILE... -t "part of a title"]: unit and property tests; needs Node alone.
import { ensurePackages, requireNode, runTests } from './house.mjs';

requireNode();
ensurePackages();
process.exitCode = runTests(['unit', 'unit-apart'], process.argv.slice(2)) ? 0 : 1;

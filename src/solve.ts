/**
 * The headless command: evaluates a worksheet and prints every symbol, check and error.
 * Exit 0 when no cell is in error, 1 when one is (the rest is printed still), 2 for bad usage. stdout holds the answer only.
 */
import { solve } from './solve/answer.ts';
import { isUsageError, readOptions, USAGE } from './solve/options.ts';
import { plainText } from './solve/print.ts';

try {
  const options = readOptions(process.argv.slice(2));
  if (options.help) process.stdout.write(`${USAGE}\n`);
  else {
    const solved = await solve(options);
    process.stdout.write(`${options.json ? JSON.stringify(solved.answer, null, 2) : plainText(solved)}\n`);
    process.exitCode = solved.answer.errors.length > 0 ? 1 : 0;
  }
} catch (error) {
  if (!isUsageError(error)) throw error;
  process.stderr.write(`${error.message}\n\n${USAGE}\n`);
  process.exitCode = 2;
}

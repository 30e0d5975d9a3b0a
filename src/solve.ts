/**
 * The headless command: evaluates a worksheet and prints every symbol, check and error.
 * Exit 0 when no cell is in error, 1 when one is (the rest is printed still), 2 for bad usage. stdout holds the answer only.
 */
import { solveCommand } from './solve/command.ts';

const { code, stdout, stderr } = await solveCommand(process.argv.slice(2));
process.stdout.write(stdout);
process.stderr.write(stderr);
process.exitCode = code;

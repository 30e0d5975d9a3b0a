import { solve } from './answer.ts';
import { isUsageError, readOptions, USAGE } from './options.ts';
import { plainText } from './print.ts';
import { writeTeams } from './teams.ts';

/** What the command leaves behind: its exit status and what stands on the two streams. */
export interface Ended {
  readonly code: 0 | 1 | 2;
  readonly stdout: string;
  readonly stderr: string;
}

/** The headless command without a process around it; a fault of ours is thrown on. */
export async function solveCommand(args: readonly string[]): Promise<Ended> {
  try {
    const options = readOptions(args);
    if (options.help) return { code: 0, stdout: `${USAGE}\n`, stderr: '' };
    if (options.teams !== undefined && options.into !== undefined) {
      const { key, notes, isComplete } = writeTeams(options, options.teams, options.into);
      return { code: isComplete ? 0 : 1, stdout: key, stderr: notes.map((note) => `${note}\n`).join('') };
    }
    const solved = await solve(options);
    const said = options.json ? JSON.stringify(solved.answer, null, 2) : plainText(solved);
    return { code: solved.answer.errors.length + solved.answer.open.length > 0 ? 1 : 0, stdout: `${said}\n`, stderr: '' };
  } catch (error) {
    if (!isUsageError(error)) throw error;
    return { code: 2, stdout: '', stderr: `${error.message}\n\n${USAGE}\n` };
  }
}

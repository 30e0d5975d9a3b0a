import { basename } from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Journeys that take longest, the longest first. What takes long and begins late is waited for alone at the end. A run prints its ten slowest. */
const LONGEST = ['contrast', 'taps', 'lecture-stations', 'access', 'side', 'kept', 'keyboard-only', 'draws', 'small-things', 'hold'];

const rank = ({ moduleId }: TestSpecification): number => {
  const at = LONGEST.indexOf(basename(moduleId, '.test.ts'));
  return at < 0 ? LONGEST.length : at;
};

/** The order in which files are begun: project after project as usual, and in each what takes longest first. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const usual = await super.sort(files);
    const projects = [...new Set(usual.map(({ project }) => project))];
    return projects.flatMap((project) => usual.filter((file) => file.project === project).sort((one, other) => rank(one) - rank(other)));
  }
}

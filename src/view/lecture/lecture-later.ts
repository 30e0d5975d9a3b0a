import { typesetter } from '../../report/index.ts';
import { isTextField } from '../focus.ts';
import { heldPresses } from '../held-presses.ts';
import { lectureActionOf } from './keys.ts';
import { OPEN, type Lecture, type LectureParts } from './lecture-types.ts';

const NOTHING: ReadonlySet<string> = new Set();

/**
 * The lecture, which is a part of the page by itself, brought when it is first entered. Its keys that are pressed meanwhile wait for it.
 * @param failed told where it does not come, with the way to try again
 */
export function lectureLater(parts: LectureParts, failed: (error: unknown, again: () => void) => void): Lecture {
  let there: Lecture | undefined;
  let isGone = false;
  const whenThere = async (work: (lecture: Lecture) => void): Promise<void> => {
    if (there !== undefined) return work(there);
    const release = heldPresses((event) => lectureActionOf(event, isTextField(event.target)) !== undefined);
    try {
      // It measures what it shows; where nothing sets equations they stand as they are.
      const [{ createLecture }] = await Promise.all([import('./lecture.ts'), typesetter.bring().catch(() => undefined)]);
      if (isGone) return;
      there ??= createLecture(parts);
      work(there);
    } catch (error) {
      if (!isGone) failed(error, () => void whenThere(work));
    } finally {
      release();
    }
  };
  return {
    enter: (fillsScreen) => void whenThere((lecture) => lecture.enter(fillsScreen)),
    begin: () => {
      if (parts.memory?.read()?.startsWith(`${OPEN} `) === true) void whenThere((lecture) => lecture.begin());
    },
    follow: () => there?.follow(),
    edited: (before) => there?.edited(before),
    telling: () => there?.telling() ?? {},
    notYet: () => there?.notYet() ?? NOTHING,
    dispose: () => {
      isGone = true;
      there?.dispose();
    },
  };
}

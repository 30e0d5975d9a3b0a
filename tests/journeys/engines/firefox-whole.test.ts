/** What is made in Firefox by its command alone. */
import { test } from 'vitest';
import { A_FINGER, FORCED_COLOURS, startFirefox } from './firefox.ts';
import { emptyDateLooksEmpty, hasLargeLetters } from './guards.ts';
import { withEngine } from './smoke.ts';
import { wholeOf } from './whole.ts';

wholeOf('Firefox', startFirefox);

test('Firefox: to a finger every field has letters of 16 px', () => withEngine((saved) => startFirefox(saved, { wishes: A_FINGER }), hasLargeLetters));

test('Firefox: in forced colours an empty date looks empty too', () => withEngine((saved) => startFirefox(saved, { wishes: FORCED_COLOURS }), emptyDateLooksEmpty));

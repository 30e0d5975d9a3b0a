import { fenced, given, step } from '../report/sheet-at.ts';

/** States of lines that no standard sheet is in. */
export const STATES = [
  '---\ntitle: States\nchief_results: k\n---\n',
  given('a', '2.0 ± 0.1 mm', 'mm', 'instrument: steel rule, 0.5 mm'),
  given('empty', '', 'mm'),
  step('k', '3*a', 'mm', 'label: Three times'),
  step('agrees', '2*a', 'mm', 'asked: true', 'answer: 4.0 mm'),
  step('differs', '2*a', 'mm', 'asked: true', 'answer: 5.00 mm', 'note: Look again.'),
  step('unread', '2*a', 'mm', 'asked: true', 'answer: four'),
  step('waits', '2*a', 'mm', 'asked: true'),
  step('hangs', '2*waits', 'mm'),
  step('upstream', '2*empty', 'mm'),
  step('broken', '2*(', 'mm'),
  fenced('checklist', 'id: all', 'label: Before the start', 'items:', '  - text: Guard closed', '    done: 2026-01-12T09:12:00+01:00'),
  fenced('remark', 'id: nothing', 'heading: Discussion', 'text: ""'),
  fenced('check', 'id: untold', 'label: Thick enough?', 'condition: empty > 1*unit(mm)', 'holds: It is.', 'otherwise: It is not.'),
  fenced('gadget', 'id: odd', 'says: something'),
].join('\n');

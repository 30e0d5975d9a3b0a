import { blankSheet, nextSpecimen, serialiseSheet, switchAllSlipsOff, switchSlip } from '../sheet/index.ts';
import { bringCharts } from '../figures/at-hand/index.ts';
import { typesetter } from '../report/index.ts';
import { fileName, isDamagedPart, partWords, saveFile } from '../view/index.ts';
import { bringIn } from './bring-in.ts';
import { beginAtTitle, goToFirstBlank } from './first-blank.ts';
import type { HeadActions } from './head-state.ts';
import { contextOf } from './page-effects.ts';
import type { OpenSheet } from './open-sheet.ts';
import type { Page } from './page-now.ts';
import { NotServed } from './page-parts.ts';
import { open, openAndKeep, openKept, remove, whileKept } from './page-sheets.ts';
import { newOpening, startingText } from './starts.ts';
import { takeDocument, type Takeaway } from './takeaways.ts';

/** Files brought in at once, each as a sheet of its own. */
const MOST_BROUGHT_IN = 5;

/** What the controls in the head of the page do. */
export function headActions(page: Page): HeadActions {
  const { now, root, act, notices, earlierDesk, holdDesk } = page;
  return {
    unfold: (panel) => act({ on: 'unfold', panel }),
    takeAway: (takeaway) => handOut(takeaway, page),
    // What draws charts and sets equations may not be there yet; where it does not come, their places say so.
    print: () => void Promise.allSettled([bringCharts(), typesetter.bring()]).then(() => window.print()),
    toFirstBlank: () => goToFirstBlank(root, now.sheet?.session.document()),
    takeALook: () => {
      now.example = undefined;
      page.show();
      now.sheet?.takeALook();
    },
    lecture: () => now.sheet?.enterLecture(),
    // To open a class's files one after the other would take a minute; they are collected.
    bringIn: (files) => (files.length > MOST_BROUGHT_IN ? page.collectDesk.take(files) : void bringIn(files, (text) => openAndKeep(newOpening(text), page), notices.tell)),
    open: (id) => void whileKept(() => openKept(id, page), page),
    takeDamaged: ({ key, content }) => saveFile(fileName(['damaged record', key], 'json'), content, 'application/json;charset=utf-8'),
    remove: (id) => void whileKept(() => remove(id, page), page),
    duplicate: () => {
      if (now.sheet !== undefined) void openAndKeep(newOpening(serialiseSheet(now.sheet.session.document()), true), page);
    },
    blankCopy: () => {
      if (now.sheet === undefined) return;
      now.sheet.session.settle();
      void openAndKeep(newOpening(serialiseSheet(blankSheet(now.sheet.session.document()))), page);
    },
    nextSpecimen: () => {
      if (now.sheet === undefined) return;
      now.sheet.session.settle();
      void openAndKeep(newOpening(serialiseSheet(nextSpecimen(now.sheet.session.document()).document)), page);
    },
    start: (from) => void startingText(from).then(async (text) => {
      await open(newOpening(text), page);
      if (from !== 'empty' && !from.hasExample) beginAtTitle(root);
    }, (error: unknown) => notices.tell(partWords(error))),
    switchSlip: (id, on) => {
      if (now.sheet === undefined) return;
      const { session } = now.sheet;
      session.settle();
      session.apply(id === undefined ? switchAllSlipsOff() : switchSlip(session.document(), id, on));
      session.settle();
    },
    ...holdDesk,
    collect: page.collectDesk,
    unfoldTeams: page.teamsDesk.unfold,
    goBackToEarlier: earlierDesk.goBackToEarlier,
    showMoreEarlier: earlierDesk.showMoreEarlier,
    unfoldEarlier: earlierDesk.unfoldEarlier,
    dismiss: notices.dismiss,
  };
}

function handOut(takeaway: Takeaway, page: Page): void {
  const { now: { sheet }, notices } = page;
  if (sheet === undefined) return;
  if (takeaway.what === 'document') return takeDocument(contextOf(sheet));
  madeOf(takeaway, sheet, page).catch((error: unknown) =>
    notices.tell(error instanceof NotServed ? error.message : isDamagedPart(error) ? partWords(error) : 'The browser could not make this picture. Take the drawing away as SVG instead.'));
}

async function madeOf(takeaway: Exclude<Takeaway, { readonly what: 'document' }>, sheet: OpenSheet, { own }: Page): Promise<void> {
  const { takeAway } = await import('./take-away.ts');
  await takeAway(takeaway, { context: contextOf(sheet), sampled: sheet.sampled(), own, sheetId: sheet.autosave.sheetId(), at: new Date() });
}

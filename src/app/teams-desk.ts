import { problemSentence } from '../core/problem/index.ts';
import { remembered } from '../core/remembered/index.ts';
import { drawClass, planVariants } from '../graph/index.ts';
import { classOf, classTable, nameParts, shownClass, type DrawnClass, type PresentContext } from '../report/index.ts';
import { asksForStep, cellsOf, isOwnWorking, readClassList, type EditCommand, type ListedTeam, type SheetDocument } from '../sheet/index.ts';
import { fileName, saveFile, type SheetSession } from '../view/index.ts';
import { textOfList } from './list-file.ts';
import type { NoticeDesk } from './notices.ts';
import type { OwnParts } from './page-parts.ts';
import { freshSheetId } from './shelf-store.ts';
import { rangesOf, takingUp } from './team-ranges.ts';
import { teamsTemplate } from './teams-panel.ts';
import type { Teams, TeamsActions, TeamsState } from './teams-types.ts';

interface TeamsDeskOptions {
  readonly session: () => SheetSession | undefined;
  readonly context: () => PresentContext | undefined;
  readonly own: () => Promise<OwnParts>;
  readonly now: () => Date;
  readonly show: () => void;
  readonly tell: NoticeDesk['tell'];
}

/** Files are made one after the other, and the page answers between them. */
const nextTask = (): Promise<void> => new Promise((done) => setTimeout(done));

/** Teams after which it is said how far it is. */
const TOLD_EACH = 10;

/** Letters of a seed that is chosen here. */
const SEED_LENGTH = 8;

/** Everything for a class: what varies, who is in it, the numbers and the files. The class list stays in memory and goes nowhere else. */
export function createTeamsDesk(options: TeamsDeskOptions): Teams {
  const { session, context, show } = options;
  const now = { isOpen: false, list: '', busy: undefined as string | undefined, refused: undefined as string | undefined };
  let drawn: (DrawnClass & { readonly of: SheetDocument; readonly list: string }) | undefined;

  const apply = (command: EditCommand): void => {
    const open = session();
    if (open === undefined) return;
    open.settle();
    const result = open.apply(command);
    open.settle();
    now.refused = result.ok ? undefined : problemSentence(result.problem);
    show();
  };
  const refuse = (why: string): undefined => {
    now.refused = why;
    return undefined;
  };
  const working = async (words: string, work: () => Promise<void>): Promise<void> => {
    if (now.busy !== undefined) return;
    [now.busy, now.refused] = [words, undefined];
    show();
    await nextTask();
    await work().catch((error: unknown) => refuse(`This could not be finished: ${error instanceof Error ? error.message : 'unknown'}.`));
    now.busy = undefined;
    show();
  };
  /** What was drawn, where nothing has changed since; else drawn now. */
  const drawnNow = async (): Promise<DrawnClass | undefined> => {
    const open = session();
    const list = readClassList(now.list);
    if (open === undefined) return undefined;
    if (!list.ok) return refuse(problemSentence(list.problem));
    seedChosen(open);
    const document = open.document();
    if (drawn?.of === document && drawn.list === now.list) return drawn;
    const found = await drawSheet(document, list.value.teams, (done, of) => {
      now.busy = `Drawing numbers: ${done} of ${of} teams`;
      show();
    });
    if (typeof found === 'string') return refuse(found);
    drawn = { ...found, of: document, list: now.list };
    return drawn;
  };

  const actions: TeamsActions = {
    setRange: (cellId, key, text) => apply({ do: 'set key', cellId, key, value: text === undefined || text.trim() === '' ? undefined : text.trim() }),
    takeUp: (cellId) => {
      const shown = context();
      const block = shown?.document.blocks.find(({ id }) => id === cellId);
      if (shown !== undefined && block?.kind === 'cell') apply(takingUp(block.cell, shown.states));
    },
    askForEvery: (isOn) => apply({ do: 'set front matter', key: 'own_working', value: String(isOn) }),
    setSeed: (text) => apply({ do: 'set front matter', key: 'class_seed', value: text.trim() === '' ? undefined : text.trim() }),
    setList: (text) => {
      now.list = text;
      show();
    },
    listFile: (file) => void textOfList(file).then((read) => {
      if (read.ok) [now.list, now.refused] = [read.value.text, read.value.note];
      else refuse(problemSentence(read.problem));
      show();
    }),
    draw: () => void working('Drawing numbers', async () => void await drawnNow()),
    takeTeamFiles: () => void working('Drawing numbers', async () => {
      const found = await drawnNow();
      if (found !== undefined) await takeArchive(found, options, (words) => {
        now.busy = words;
        show();
      });
    }),
    takeClassTable: () => void working('Drawing numbers', async () => {
      const found = await drawnNow();
      if (found !== undefined) saveFile(fileName([...nameParts(found.plan.document), 'class', 'key'], 'csv'), classTable(found), 'text/csv;charset=utf-8');
    }),
  };
  return {
    unfold: (open) => {
      now.isOpen = open;
      show();
    },
    panel: (shown) => (now.isOpen ? teamsTemplate(looked(shown, { ...now, drawn: drawn?.of === shown.document && drawn.list === now.list ? drawn : undefined }), actions) : undefined),
  };
}

/** A seed of our own where the reader gives none, written into the sheet so that it gives the same numbers again. */
function seedChosen(open: SheetSession): void {
  open.settle();
  if ((open.document().frontMatter.entries.get('class_seed') ?? '').trim() !== '') return;
  open.apply({ do: 'set front matter', key: 'class_seed', value: freshSheetId().slice(0, SEED_LENGTH) });
  open.settle();
}

/** The numbers of every team of the list, or why there are none. */
async function drawSheet(document: SheetDocument, listed: readonly ListedTeam[], tell: (done: number, of: number) => void): Promise<DrawnClass | string> {
  const plan = planVariants(document);
  if (!plan.ok) return problemSentence(plan.problem);
  const teams: DrawnClass['teams'][number][] = [];
  for (const draw of drawClass(plan.value, document.frontMatter.entries.get('class_seed') ?? '', listed.map(({ team }) => team))) {
    const one = listed[teams.length];
    if (one !== undefined) teams.push({ listed: one, draw });
    // A voice that reads the state out is told now and then, not thirty times in a second.
    if (teams.length % TOLD_EACH === 0) tell(teams.length, listed.length);
    await nextTask();
  }
  return classOf(document, plan.value, teams);
}

async function takeArchive(drawn: DrawnClass, { own, now, tell }: TeamsDeskOptions, busy: (words: string) => void): Promise<void> {
  const count = drawn.teams.filter(({ draw }) => draw.variant !== undefined).length;
  const left = drawn.teams.length - count;
  if (count === 0) return;
  const before = async (done: number): Promise<void> => {
    if (done % TOLD_EACH === 0) busy(`Making files: ${done} of ${drawn.teams.length}`);
    await nextTask();
  };
  const at = now();
  const { teamArchive } = await import('./team-files.ts');
  const archive = await teamArchive(drawn, await own(), at, before);
  saveFile(fileName([...nameParts(drawn.plan.document), 'class'], 'zip'), archive, 'application/zip');
  tell(`${count === 1 ? 'One working file is' : `${count} working files are`} taken away in one archive.${left === 0 ? '' : ` ${left === 1 ? 'One team has' : `${left} teams have`} no numbers and no file.`}`);
}

const INVENTED = 'Values of the invented example go along in every file, where they do not vary: start from the blank sheet, or look at each of them first.';

/** Whether a value of the example stands in what is handed out. */
function hasInvented({ document, varied: all }: DrawnClass['plan']): boolean {
  const varied = new Set(all.map(({ symbol }) => symbol));
  return cellsOf(document, 'given').some(({ origin, symbol, value, readings }) => origin === 'example' && !varied.has(symbol) && (readings ?? value ?? '').trim() !== '');
}

const shownOnce = remembered(shownClass);

type Looked = Pick<TeamsState, 'list' | 'busy' | 'refused'> & { readonly drawn: DrawnClass | undefined };

function looked(context: PresentContext, { list, busy, refused, drawn }: Looked): TeamsState {
  const { document, states } = context;
  const { entries } = document.frontMatter;
  const read = list.trim() === '' ? undefined : readClassList(list);
  return {
    ...rangesOf(document, states),
    asksForEvery: isOwnWorking(document),
    askedCount: cellsOf(document, 'step').filter((step) => asksForStep(step, document)).length,
    seed: entries.get('class_seed') ?? '',
    list,
    read: read?.ok === true ? read.value : undefined,
    notes: [...(drawn === undefined ? [] : drawn.plan.notes), ...(drawn !== undefined && hasInvented(drawn.plan) ? [INVENTED] : [])],
    drawn: drawn === undefined ? undefined : shownOnce(drawn),
    busy,
    refused: refused ?? (read?.ok === false ? problemSentence(read.problem) : undefined),
  };
}

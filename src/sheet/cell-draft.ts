import { nearNames, type Problem } from '../core/problem/index.ts';
import { rememberedByName, rememberedShortTexts } from '../core/remembered/index.ts';
import { keyProblem, placeProblem } from './body-problem.ts';
import type { BodyProblem } from './body-problem.ts';
import { CELL_READERS } from './cell-readers.ts';
import type { CellFields } from './cell-readers.ts';
import { anyFieldsOf, present, TRUTH, truthSlip } from './fields.ts';
import type { Fields } from './fields.ts';
import { isKnownKind, keysOf, KNOWN_KINDS } from './keys.ts';
import { LAST_TEXTS, lastTextBlock, lastTextKey } from './last-text.ts';
import type { LastTextPlace } from './last-text.ts';
import { readOrigin } from './origin.ts';
import { plainGroup } from './plain-body.ts';
import { groupOf } from './tree.ts';
import type { Group } from './tree.ts';
import type { Cell } from './types.ts';
import { readBody } from './yaml-body.ts';

/** A cell as its own text gives it, before it has an id and a place in a document. */
export interface CellDraft {
  readonly fields: CellFields;
  readonly problems: readonly BodyProblem[];
  readonly unknownKeys: readonly BodyProblem[];
  /** The `id` key. */
  readonly statedId?: string;
  readonly symbol?: string;
  /** What stands around the rows of a table that are plain lines at its end. */
  readonly rowsPlace?: LastTextPlace;
}

/** Longest body that is read, in characters; a longer one is kept unread. */
const LONGEST_BODY = 200_000;
/** Characters that the body of a kind may have. */
export function longestBody(kindWord: string): number {
  return LAST_TEXTS.get(kindWord)?.longest ?? LONGEST_BODY;
}

const STATED_ID = /^[\p{L}\p{N}_.-]{1,80}$/u;

/** Cells that are read again as they stand: of a sheet that is opened again, of its states, of what an edit is undone to. */
const DRAFTS_KEPT = 1_000;
const LONGEST_KEPT = 4_000;

const draftOfText = rememberedShortTexts(DRAFTS_KEPT, LONGEST_KEPT, (text): CellDraft => {
  const end = text.indexOf('\n');
  return readCell(text.slice(0, end), text.slice(end + 1));
});

/** Reads one cell by its kind, a word, and its body. Nothing is refused: what can't be read is told and left out. */
export function draftCell(cellKind: string, body: string): CellDraft {
  return draftOfText(`${cellKind}\n${body}`);
}

function readCell(cellKind: string, body: string): CellDraft {
  const longest = longestBody(cellKind);
  if (body.length > longest) return unread([bodyTooLongProblem(longest)]);
  const key = lastTextKey(cellKind);
  const block = key === undefined ? undefined : lastTextBlock(body, key);
  const plain = block === undefined ? plainGroup(body) : undefined;
  const reading = plain === undefined ? block?.reading ?? readBody(body) : undefined;
  if (!isKnownKind(cellKind)) {
    const fields = anyFieldsOf(plain ?? groupOf(body, reading?.entries ?? [], []), 'cell', []);
    return { ...unread([kindUnknownProblem(cellKind)], fields), ...claimsOf(fields, []) };
  }
  if (reading?.form === 'none') return unread(reading.problems);
  const problems = [...reading?.problems ?? []];
  const group = plain ?? groupOf(block?.head ?? body, reading?.entries ?? [], problems);
  const fields = anyFieldsOf(block === undefined ? group : withText(group, block.key, block.text), cellKind, problems);
  const own = CELL_READERS[cellKind](fields, problems);
  const unknownKeys = [...fields.unknown(), ...(own.unknownInside ?? [])];
  const takes = keysOf(cellKind);
  const shared = {
    ...present({
      label: fields.text('label'),
      note: fields.text('note'),
      origin: takes.includes('origin') ? readOrigin(fields) : undefined,
      perSpecimen: takes.includes('per_specimen') ? fields.formed('per_specimen', TRUTH, truthSlip('per_specimen')) : undefined,
    }),
  };
  const claims = claimsOf(fields, problems);
  const place = block?.key !== 'rows' ? {} : { rowsPlace: placeOf(block) };
  return { fields: { ...own.fields, ...shared } as CellFields, ...claims, ...place, unknownKeys: inOrder(unknownKeys), problems: inOrder(problems) };
}

/** A cell that tells nothing wrong hangs on nothing but its text and id: what is known of it holds wherever that is read again. */
const placedSound = rememberedByName(({ fields }: CellDraft, id: string): Cell => ({ ...fields, id, unknownKeys: [], problems: [] }));

/** The cell in its document. `duplicateOf` names the cell whose id it states, too. */
export function placeDraft(draft: CellDraft, id: string, bodyLine: number, duplicateOf?: string): Cell {
  if (duplicateOf === undefined && draft.problems.length === 0 && draft.unknownKeys.length === 0) return placedSound(draft, id);
  const duplicate = duplicateOf === undefined ? [] : [duplicateIdProblem(duplicateOf)];
  const placed = (problem: BodyProblem): Problem => placeProblem(problem, bodyLine, id);
  return { ...draft.fields, id, unknownKeys: draft.unknownKeys.map(placed), problems: [...duplicate, ...draft.problems].map(placed) };
}

function claimsOf(fields: Fields, problems: BodyProblem[]): { statedId?: string; symbol?: string } {
  const id = fields.text('id');
  const isUsable = id === undefined || STATED_ID.test(id);
  if (!isUsable) {
    const mend = 'Use letters, digits, hyphens, points and underscores only.';
    fields.tell('id-malformed', 'id', `\`${id}\` can't be the id of a cell.`, mend);
  }
  const symbol = problems.some(({ code }) => code === 'symbol-malformed') ? undefined : fields.text('symbol');
  return present({ statedId: isUsable ? id : undefined, symbol });
}

function placeOf({ head, indent, lineEnd, tail }: LastTextPlace): LastTextPlace {
  return { head, indent, lineEnd, tail };
}

function withText(group: Group, key: string, text: string): Group {
  return { ...group, entries: new Map([...group.entries, [key, { kind: 'text', text, row: group.entries.get(key)?.row ?? 0 }]]) };
}

function unread(problems: readonly BodyProblem[], fields?: Fields): CellDraft {
  const shared = present({ label: fields?.text('label'), note: fields?.text('note') });
  return { fields: { kind: 'unknown', ...shared }, unknownKeys: [], problems };
}

function inOrder(problems: readonly BodyProblem[]): readonly BodyProblem[] {
  return problems.toSorted((a, b) => a.row - b.row);
}

function bodyTooLongProblem(longest: number): BodyProblem {
  return keyProblem('body-too-long', -1, 'This cell is too long to be read.', `Keep it below ${longest} characters.`);
}

function kindUnknownProblem(cellKind: string): BodyProblem {
  const [near] = nearNames(cellKind, KNOWN_KINDS);
  const mend = near === undefined ? 'It is kept as it is.' : `Write \`${near}\` if that is meant; it is kept as it is.`;
  return keyProblem('kind-unknown', -1, `\`${cellKind}\` is not a kind of cell that this version understands.`, mend);
}

function duplicateIdProblem(id: string): BodyProblem {
  const mend = 'Give one of the two another id, or delete the line.';
  return keyProblem('duplicate-id', -1, `Another cell has the id \`${id}\` already.`, mend, 'id');
}

import type { DrawnClass } from '../report/index.ts';
import { forTeam, variantText } from '../sheet/index.ts';
import { fileName } from '../view/index.ts';
import { archived } from './archive.ts';
import type { OwnParts } from './page-parts.ts';
import { freshSheetId } from './shelf-store.ts';
import { titleOf } from './sheet-title.ts';
import { workingFileOf } from './take-away.ts';

/** The working file of each team that has numbers, one after the other as it is asked for. @param before is told of each before it is made */
export async function* teamFiles({ plan, teams }: DrawnClass, own: OwnParts, at: Date, before: (done: number) => Promise<void>) {
  for (const [i, { listed, draw }] of teams.entries()) {
    await before(i);
    if (draw.variant === undefined) continue;
    const variant = variantText(draw.seed, draw.variant.entries);
    const document = forTeam(plan.document, { ...listed, variant, entries: draw.variant.entries });
    if (!document.ok) throw new Error(`the numbers of ${variant} do not go into the sheet: ${document.problem.what}`);
    yield { name: fileName([listed.team, variant, titleOf(document.value)], 'html'), content: await workingFileOf(document.value, draw.variant.reckoned, { own, sheetId: freshSheetId(), at }) };
  }
}

/** All of them in one archive. */
export function teamArchive(drawn: DrawnClass, own: OwnParts, at: Date, before: (done: number) => Promise<void>) {
  return archived(teamFiles(drawn, own, at, before), at);
}

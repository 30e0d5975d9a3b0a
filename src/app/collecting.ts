/** All that collecting a class's returned files takes: a part of the page by itself, asked for with the first files. */
import { createCollectDesk, gatheredWords, type CollectOptions } from './collect-desk.ts';
import { poolPlaces } from './collect-line.ts';
import { collectTemplate } from './collect-panel.ts';
import type { Collected } from './collect-types.ts';
import type { SheetSession } from '../view/index.ts';

/** @param session of the sheet that lies open, into which specimens can go */
export function startCollecting(options: Omit<CollectOptions, 'places'>, session: () => SheetSession | undefined): Collected {
  const desk = createCollectDesk({ ...options, places: poolPlaces(session, options.openAsSheet) });
  return {
    take: desk.take,
    words: () => {
      const { reading, gathered } = desk.shown();
      return reading === undefined && gathered.sheets.length + gathered.refused.length === 0 ? undefined : gatheredWords(desk.shown());
    },
    panel: () => collectTemplate(desk.shown(), desk),
  };
}

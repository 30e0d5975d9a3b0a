/** The page's wiring: storage, files, clock and the live sheet. Everything it needs is in the one file. */
import { createEarlierStates, keepingEarlier } from './earlier-store.ts';
import { keepLastWords } from './last-words.ts';
import { startPage } from './page.ts';
import { createPersistence } from './persistence.ts';
import { createShelfStore } from './shelf-store.ts';
import 'katex/dist/katex.css';
import '../report/styles/tokens.css';
import '../report/styles/sheet.css';
import '../figures/drawings.css';
import '../figures/charts.css';
import './styles/head.css';
import './styles/side.css';
import './styles/panels.css';
import './styles/held.css';
import './styles/collect.css';
import './styles/teams.css';

const root = document.querySelector<HTMLElement>('#sheet');
if (root === null) throw new Error('the page has no place for the sheet');

/** Some browsers never answer where they should refuse. */
const PATIENCE = 3000;

/** Nothing is waited for at the top: parts of the page are classic scripts. */
async function start(place: HTMLElement): Promise<void> {
  // A browser that keeps nothing (private window, full disk) still gets a sheet that works; the header says so, and each change tries again.
  const earlier = createEarlierStates(Date.now);
  const store = keepingEarlier(createShelfStore(), earlier);
  const canKeep = await Promise.race([
    store.list().then(() => true, () => false),
    new Promise<boolean>((resolve) => setTimeout(resolve, PATIENCE, false)),
  ]);
  // Where the database only answers late, what was typed last is still waited for. What can't be moved now stays set aside for the next time.
  await keepLastWords(store).catch(() => undefined);
  await startPage(place, { store, earlier, persistence: createPersistence(navigator.storage, () => localStorage), canKeep });
  if (canKeep) await store.ids().then((ids) => earlier.sweep(new Set(ids))).catch(() => undefined);
}

void start(root);

/** Whether the browser promised to keep what this page stores, or may clear it by its own rules. */
export type Persistence = 'promised' | 'may clear';

/** Keeping is asked of the browser once and its answer told for as long as it holds. */
export interface PersistenceDesk {
  /** A sheet has been kept: asks the browser, which may ask the reader, unless that was done before; then it is as `look`. */
  ask(): Promise<Persistence>;
  /** What holds at present, without asking anybody. */
  look(): Promise<Persistence>;
}

/** Remembered where the browser asks the reader: whoever said no is not asked again. */
const ASKED = 'spanlife-asked';

type StorageDesk = Partial<Pick<StorageManager, 'persist' | 'persisted'>>;

/**
 * @param storage `navigator.storage`, which old browsers and pages without a secure context lack
 * @param memory the small storage, which may be refused
 */
export function createPersistence(storage: StorageDesk | undefined, memory: () => Pick<Storage, 'getItem' | 'setItem'>): PersistenceDesk {
  let asked = false;
  const wasAsked = (): boolean => {
    if (asked) return true;
    asked = true;
    try {
      if (memory().getItem(ASKED) !== null) return true;
      memory().setItem(ASKED, '');
    } catch {
      // Not remembered, it is asked once for each time the page is loaded.
    }
    return false;
  };
  const answer = async (question: (() => Promise<boolean>) | undefined): Promise<Persistence> => {
    try {
      return (await question?.()) === true ? 'promised' : 'may clear';
    } catch {
      return 'may clear';
    }
  };
  const look = (): Promise<Persistence> => answer(storage?.persisted?.bind(storage));
  return {
    look,
    ask: async () => {
      const present = await look();
      return present === 'promised' || wasAsked() ? present : answer(storage?.persist?.bind(storage));
    },
  };
}

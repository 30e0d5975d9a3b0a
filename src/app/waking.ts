/**
 * Which sheet this window had open, for when it is loaded again, and which one is just coming alive: a sheet that did not,
 * the last time, is not opened again without being asked for. Where the small storage is refused, neither is known.
 */
const OPEN = 'spanlife-open';
const WAKING = 'spanlife-waking:';

export function rememberOpen(id: string): void {
  attempt(() => sessionStorage.setItem(OPEN + location.pathname, id));
}

export function rememberedOpen(): string | undefined {
  return attempt(() => sessionStorage.getItem(OPEN + location.pathname)) ?? undefined;
}

/** A sheet begins to come alive; to be called back when it has. */
export function beginWaking(id: string): () => void {
  attempt(() => localStorage.setItem(WAKING + id, ''));
  return () => void attempt(() => localStorage.removeItem(WAKING + id));
}

/** Whether a sheet began to come alive and was never heard of again. */
export function didNotWake(id: string): boolean {
  return typeof attempt(() => localStorage.getItem(WAKING + id)) === 'string';
}

function attempt<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

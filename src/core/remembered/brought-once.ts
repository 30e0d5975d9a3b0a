/** Brings something at the first asking and gives the same from then on; what was refused is tried again at the next asking. */
export function broughtOnce<T>(bring: () => Promise<T>): () => Promise<T> {
  let asked: Promise<T> | undefined;
  return () => {
    asked ??= bring().catch((error: unknown) => {
      asked = undefined;
      throw error;
    });
    return asked;
  };
}

/** A browser that does not answer within this, ms, is taken to refuse. */
const PATIENCE = 10_000;

/** Does something with a database; rejects where the browser refuses or does not answer. */
type Connection<Database> = <T>(task: (database: Database) => Promise<T>) => Promise<T>;

/** A connection that failed or was closed, by cleared site data for one, is opened anew at the next call. */
export function createConnection<Database extends { close(): void }>(open: (closed: () => void) => Promise<Database>): Connection<Database> {
  let connection: Promise<Database> | undefined;
  const forget = (): void => void (connection = undefined);
  const attempt = async <T>(task: (database: Database) => Promise<T>): Promise<T> => {
    connection ??= open(forget);
    const own = connection;
    try {
      return await within(PATIENCE, own.then(task));
    } catch (error) {
      if (connection === own) forget();
      own.then((database) => database.close(), () => undefined);
      throw error;
    }
  };
  return async (task) => {
    const hadConnection = connection !== undefined;
    return attempt(task).catch((error: unknown) => {
      // A connection that has just turned out to be closed says nothing of the database: once more with a fresh one.
      if (hadConnection && !isFull(error)) return attempt(task);
      throw error;
    });
  };
}

/** Whether the browser had no room. */
export function isFull(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'QuotaExceededError';
}

function within<T>(milliseconds: number, work: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new DOMException('no answer', 'TimeoutError')), milliseconds);
  });
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

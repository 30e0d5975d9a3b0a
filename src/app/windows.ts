/** What the windows of this browser tell one another of the sheets that lie open in them. */
type Message =
  | { readonly says: 'opened' | 'open here'; readonly id: string }
  | { readonly says: 'kept'; readonly id: string; readonly revision: number };

export interface Windows {
  opened(id: string): void;
  kept(id: string, revision: number): void;
}

interface Hears {
  /** Id of the sheet open here. */
  readonly openId: () => string | undefined;
  /** Another window has the same sheet open. */
  readonly alsoOpen: () => void;
  /** Another window has kept the same sheet. */
  readonly keptThere: (revision: number) => void;
  /** Another window has kept another sheet. */
  readonly keptOther: (id: string) => void;
}

const NAME = 'spanlife-windows';

/** Where windows can't hear one another, a sheet that both change still goes on as two. */
export function createWindows({ openId, alsoOpen, keptThere, keptOther }: Hears): Windows {
  if (typeof BroadcastChannel === 'undefined') return { opened: () => undefined, kept: () => undefined };
  const channel = new BroadcastChannel(NAME);
  const say = (message: Message): void => channel.postMessage(message);
  channel.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    const message = readMessage(data);
    if (message === undefined) return;
    const isHere = message.id === openId();
    if (message.says === 'kept') return isHere ? keptThere(message.revision) : keptOther(message.id);
    if (!isHere) return;
    if (message.says === 'opened') say({ says: 'open here', id: message.id });
    alsoOpen();
  });
  return { opened: (id) => say({ says: 'opened', id }), kept: (id, revision) => say({ says: 'kept', id, revision }) };
}

/** Any page opened from a file may speak here. */
function readMessage(data: unknown): Message | undefined {
  if (typeof data !== 'object' || data === null) return undefined;
  const { says, id, revision } = data as Partial<Record<'says' | 'id' | 'revision', unknown>>;
  if (typeof id !== 'string') return undefined;
  if (says === 'opened' || says === 'open here') return { says, id };
  return says === 'kept' && typeof revision === 'number' ? { says, id, revision } : undefined;
}

export interface Attempt {
  readonly status: number | null;
  readonly said: string;
}

export function aptGetInTurn(
  args: readonly string[],
  options?: {
    readonly longest?: number;
    readonly every?: number;
    readonly attempt?: (args: readonly string[]) => Attempt;
    readonly say?: (line: string) => void;
    readonly wait?: (seconds: number) => Promise<void>;
  },
): Promise<boolean>;

export interface Engines {
  readonly firefox?: { readonly browser: string };
  readonly webkit?: { readonly driver: string; readonly screen: string; readonly browser: string; readonly printer: string };
}

export function findEngines(): Engines;
export function missingEngines(): (keyof Engines)[];
export function enginesRequired(): boolean;

export function findBrowser(): Promise<string | undefined>;
export function browserFlags(): string[];

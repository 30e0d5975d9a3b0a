import type { Server } from 'node:http';

export function servePage(options: { address: string; port: number }): Promise<Server>;

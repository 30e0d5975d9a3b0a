export * from './types.ts';
export { parseSheet, serialiseSheet, blockLine } from './parse.ts';

export { overrideStopgap as overrideInstrument } from '../core/estimate/index.ts';

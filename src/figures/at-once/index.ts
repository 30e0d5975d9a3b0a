/** Imported for its effect where charts are drawn without waiting: by the build, the headless command and tests. */
import * as charts from '../charts/index.ts';
import { drawChartsWith } from '../at-hand/index.ts';

drawChartsWith(charts);

/** What is made in WebKit by its command alone. */
import { startWebKit } from './webkit.ts';
import { wholeOf } from './whole.ts';

wholeOf('WebKit', startWebKit);

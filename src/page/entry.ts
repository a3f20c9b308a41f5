import { CAREFUL } from './careful.js';
import { begin } from './main.js';

// The order of these imports matters: careful.ts has to run before any schema is made.
if (CAREFUL) begin();

/** Writes what the checks found: materials/checks.json for `why` to print, materials/MODELS.md to read. `npm run models`. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { SCIENCE_SOURCES } from '../../src/core/science/sources.js';
import { modelsPage } from '../oracles/models-page.js';
import { checkedRows, checksByModel, checksText } from '../oracles/summary.js';
import { sources } from '../support/shipped-table.js';

const path = (name: string): string => fileURLToPath(new URL(`../../${name}`, import.meta.url));
const checks = checksByModel(checkedRows());

writeFileSync(path('materials/checks.json'), checksText(checks));
writeFileSync(path('materials/MODELS.md'), modelsPage(checks, { ...SCIENCE_SOURCES, ...sources }));

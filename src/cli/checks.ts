import type { Check } from '../core/science/provenance/check.js';
import { shippedText } from './shipped.js';

/** What the published checks of the models found, as the build shipped it; read only when it is asked for. */
export const shippedChecks = (): Readonly<Record<string, readonly Check[]>> =>
  JSON.parse(shippedText('checks.json')) as Record<string, Check[]>;

import type { modelsUsed } from '../../core/report/models-result.js';
import type { ModelUsed } from '../../core/report/why-schema.js';
import { shippedTable } from '../load.js';
import type { Call } from '../verb.js';

/** The models behind what is told, where --why asks for them; the bibliography is read only then. */
export async function modelsAsked(
  call: Call,
  blends: Parameters<typeof modelsUsed>[0],
): Promise<{ readonly models?: ModelUsed[] }> {
  if (call.options['why'] !== true) return {};
  const { modelsUsed } = await import('../../core/report/models-result.js');
  return { models: modelsUsed(blends, shippedTable().sources) };
}

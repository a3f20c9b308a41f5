import {
  checkShape,
  dottedPlaces,
  inUnits,
  mediumSchema,
  readMedium,
  readYaml,
  type StandInResult,
  standIn,
  standInResult,
  type UnitSystem,
} from '../../core/index.js';
import { type Folder, textOf } from './folder.js';
import { type Opener, shopOf } from './open.js';

/** The blends that come closest to a medium that cannot be had. */
export function standInOf(open: Opener, folder: Folder, file: string): { result: StandInResult; system: UnitSystem } {
  const located = readYaml(textOf(folder, file), file);
  const data = checkShape(mediumSchema, located);
  const { shelf } = open.shop(folder, shopOf(file, data.shop));
  const medium = readMedium(data, shelf, dottedPlaces(located));
  const result = standInResult(medium, standIn(medium.question, medium.closeness), shelf, data);
  const system = shelf.shop.units;
  return { result: inUnits(result, system), system };
}

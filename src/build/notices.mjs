// Writes the licences of everything that is bundled: the command, the library and the page hold other people's code, whose
// licences ask that their notice goes with it.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** What the page bundles besides the dependencies of the package; the build has no other way to know. */
export const BUNDLED_IN_PAGE = ['preact', 'd3-shape', 'idb'];

/** Every package that ships in the bundles, each once, with what it says of its licence. */
export function bundledPackages(root) {
  const own = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const found = new Map();
  const walk = (name, from) => {
    const folder = folderOf(name, from, root);
    if (folder === undefined || found.has(folder)) return;
    const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    found.set(folder, { name, version: about.version, license: about.license, folder });
    for (const next of Object.keys(about.dependencies ?? {})) walk(next, folder);
  };
  for (const name of [...Object.keys(own.dependencies), ...BUNDLED_IN_PAGE]) walk(name, root);
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Where Node would find a package from a folder: beside it, or in a folder further up, not above the root. */
function folderOf(name, from, root) {
  for (let at = from; at.length >= root.length; at = join(at, '..')) {
    const folder = join(at, 'node_modules', name);
    if (existsSync(join(folder, 'package.json'))) return folder;
  }
  return undefined;
}

function licenceText(folder) {
  const file = readdirSync(folder).find((name) => /^(licen[cs]e|unlicense|copying)/i.test(name));
  return file === undefined ? null : readFileSync(join(folder, file), 'utf8').trim();
}

const RULE = `\n\n${'-'.repeat(80)}\n\n`;

export function writeNotices(root, folder) {
  const parts = bundledPackages(root).map(({ name, version, license, folder: from }) => {
    const text = licenceText(from) ?? 'No licence file in the package.';
    return `${name} ${version}: ${license}\n\n${text}`;
  });
  const head = 'pourwright is under the MIT licence (see LICENSE). Its bundles hold parts of these packages:';
  writeFileSync(join(folder, 'NOTICES.txt'), `${[head, ...parts].join(RULE)}\n`);
}

import type { PropertyResult } from './result-schema.js';

/** "41 % expanded perlite: density, 22 % air after tapping the mould": where a property's spread comes from. */
export const spreadWords = ({ contributors }: Pick<PropertyResult, 'contributors'>): string =>
  contributors.map((c) => `${Math.round(100 * c.share)} % ${c.title}`).join(', ');

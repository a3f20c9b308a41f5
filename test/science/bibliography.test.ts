import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { sourcesFileSchema } from '../../src/core/materials/schema.js';
import { WHITE_BINDER_ADVICE } from '../../src/core/science/pigment.js';
import { MODELS } from '../../src/core/science/provenance.js';
import { SCIENCE_SOURCES } from '../../src/core/science/sources.js';

/** Data that is told to the maker and computes nothing: mutation testing could blank it with no test noticing. */

const science = fileURLToPath(new URL('../../src/core/science/', import.meta.url));

describe('the bibliography of the models', () => {
  it('keeps the schema of the one that ships: a title, and a kind from the list', () => {
    expect(sourcesFileSchema.shape.sources.parse(SCIENCE_SOURCES)).toEqual(SCIENCE_SOURCES);
  });

  it('says of every source where it is or that nobody opened it', () => {
    for (const [key, { title, url, note, by }] of Object.entries(SCIENCE_SOURCES)) {
      expect(title.length, key).toBeGreaterThan(8);
      for (const text of [url, note, by]) expect(text, key).not.toBe('');
      expect(url ?? note, key).toMatch(/^https?:\/\/\S+\.\S+|\w{4}/);
    }
  });
});

describe('every model', () => {
  it.each(MODELS.map((m) => [m.id, m] as const))(
    '%s is at home in a file and leaves nothing it tells blank',
    (_id, m) => {
      expect(m.files.length).toBeGreaterThan(0);
      for (const file of m.files) expect(existsSync(`${science}${file}`)).toBe(true);
      for (const [symbol, meaning] of Object.entries(m.symbols)) {
        expect(symbol).not.toBe('');
        expect(meaning).toMatch(/\w/);
      }
      for (const misfit of m.misfits) expect(misfit).toMatch(/\w+ \w+/);
      for (const range of m.ranges ?? []) {
        expect(range.low).toBeLessThan(range.high);
        expect(range.input).not.toBe('');
        expect(range.unit).not.toBe('');
      }
    },
  );
});

describe('advice on white binder', () => {
  it('is given once for each colour, with its reason', () => {
    expect(WHITE_BINDER_ADVICE.length).toBeGreaterThan(7);
    expect(new Set(WHITE_BINDER_ADVICE.map((a) => a.colour)).size).toBe(WHITE_BINDER_ADVICE.length);
    for (const { colour, binder, why } of WHITE_BINDER_ADVICE) {
      expect(colour).toMatch(/^[a-z]{3,}$/);
      expect(['white', 'grey-will-do']).toContain(binder);
      expect(why).toMatch(/^[A-Z].*\.$/);
    }
  });
});

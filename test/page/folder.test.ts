import { describe, expect, it } from 'vitest';
import { asOneText, filesOfShop } from '../../src/page/worker/folder.js';

describe('the files a blend of a shop depends on', () => {
  const shop = {
    prices: 'Preise für Gips (2).csv',
    materials: ['own.yaml', 'more/café.yaml'],
    learned: 'learned.yaml',
  };
  const files = filesOfShop('stall/shop.yaml', { ...shop, pours: 'pours.csv', waste: '5 %' });

  it('are the shop’s own and those it names, whatever their names', () => {
    expect(files).toEqual([
      'stall/shop.yaml',
      'stall/Preise für Gips (2).csv',
      'stall/learned.yaml',
      'stall/own.yaml',
      'stall/more/café.yaml',
    ]);
    expect(filesOfShop('shop.yaml', null)).toEqual(['shop.yaml']);
    expect(filesOfShop('shop.yaml', { prices: 3, materials: 'x' })).toEqual(['shop.yaml']);
  });

  it('make another text when any of them changes, comes or goes', () => {
    const folder = Object.fromEntries(files.map((file) => [file, 'a']));
    const before = asOneText(folder, files);
    const texts = files.flatMap((file) => {
      const { [file]: _, ...without } = folder;
      return [asOneText({ ...folder, [file]: 'b' }, files), asOneText(without, files)];
    });
    expect(texts).toHaveLength(10);
    expect(new Set([before, ...texts]).size).toBe(11);
    expect(asOneText({ ...folder, other: 'c' }, files)).toBe(before);
  });
});

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, said } from '../support/cli.js';

/** What a narrow sheet tells: all that a wide one does, and figures with their units. */

const STALL = join(import.meta.dirname, '..', '..', 'examples', 'garden-stall');
const POCKET = join(STALL, 'wall-pocket.yaml');

const at = async (columns: number, ...argv: string[]): Promise<string> => (await said(argv, '', { columns })).out;
const targetsOf = (sheet: string): string => sheet.slice(sheet.indexOf('TARGETS'), sheet.indexOf('WHAT TO EXPECT'));
const oneLine = (text: string): string => text.replace(/\s+/g, ' ');

describe('a narrow sheet', () => {
  it('tells what is to spare and how sure it is, at any width', async () => {
    const wide = targetsOf(await at(100, 'propose', POCKET));
    const spared = [...wide.matchAll(/(\S+ \S+ to spare|just met)\s+(\d+ % sure|sure)/g)];
    expect(spared.length).toBeGreaterThan(1);
    for (const columns of [40, 60, 80]) {
      const sheet = oneLine(targetsOf(await at(columns, 'propose', POCKET)));
      for (const [, spare, sure] of spared) {
        if (columns < 76) expect(sheet).toContain(`${spare}, ${sure}`);
        else expect(sheet).toContain(sure);
      }
    }
  });

  it.each([32, 40, 52, 66])('keeps every figure beside its unit at %d columns', async (columns) => {
    const sheets = [
      await at(columns, 'propose', POCKET, '--cautions'),
      await at(columns, 'card', join(STALL, 'recipes', 'old-planter.yaml'), '--units', 'us'),
    ];
    for (const sheet of sheets) {
      const parted = sheet
        .split('\n')
        .filter(
          (line, i, all) =>
            /\d$/.test(line) &&
            /^\s*(g|mL|mm|°C|°F|%|MPa|psi|oz|lb|fl oz|EUR|min|h|days?)(?![\w/])/.test(all[i + 1] ?? ''),
        );
      expect(parted).toEqual([]);
      for (const line of sheet.split('\n')) expect(line.length, line).toBeLessThanOrEqual(Math.max(columns, 48));
      expect(sheet).not.toContain('\u00a0');
    }
  });

  it('says how large a scoop is', async () => {
    const scoopless = folderOf({
      'plain.yaml': 'mould: { water: 250 mL }\namounts: { casting plaster: 250 g, water: 160 g }\n',
    });
    for (const columns of [40, 100]) {
      expect(oneLine(await at(columns, 'assess', join(scoopless, 'plain.yaml')))).toMatch(
        columns < 84 ? /scoops of 100 mL: beta casting plaster/ : /scoops of .*100 mL/,
      );
    }
    expect(oneLine(await at(40, 'assess', join(scoopless, 'plain.yaml'), '--units', 'us'))).toContain(
      'scoops of 3.38 fl oz: ',
    );
  });

  it('tells how much a batch fills where that shows beside the pieces', async () => {
    const coarse = folderOf({
      'coarse.yaml': 'scale: { step: 5 g }\n',
      'cup.yaml':
        'shop: coarse.yaml\nmould: { water: 82 mL }\nmaterials: { only: [casting plaster] }\nobjective: strongest\n',
    });
    const { out } = await said(['propose', join(coarse, 'cup.yaml'), '--json'], '');
    const { fills } = JSON.parse(out) as { fills: number };
    expect(Math.abs(fills - 1)).toBeGreaterThan(0.005);
    const told = `BLEND for one piece, fills ${Number(fills.toPrecision(3))} moulds`;
    expect(await at(100, 'propose', join(coarse, 'cup.yaml'))).toContain(told);
    expect(await at(100, 'propose', POCKET)).not.toMatch(/BLEND for .* fills/);
  });
});

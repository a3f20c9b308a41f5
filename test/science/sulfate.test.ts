import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alkaliGlassRisk } from '../../src/core/science/alkali-glass.js';
import { bloomRisk } from '../../src/core/science/efflorescence.js';
import {
  binderSo3,
  c150So3Limit,
  mostHemihydrate,
  portlandBorne,
  type SulfateCase,
  sulfateScreen,
} from '../../src/core/science/sulfate.js';
import { between, property } from './counting.js';

const ORDER = ['pass', 'note', 'warn', 'refuse'];
const rank = (mix: SulfateCase): number => ORDER.indexOf(sulfateScreen(mix).verdict);

const blend = fc.record({
  portland: between(0, 100),
  hemihydrate: between(0, 100),
  silica: between(0, 60),
  carbonate: fc.boolean(),
  cold: fc.boolean(),
  service: fc.constantFrom<SulfateCase['service']>('dry-indoor', 'damp', 'wet', 'warm'),
});
const caseOf = ({ silica, ...rest }: { silica: number } & Omit<SulfateCase, 'pozzolans'>): SulfateCase => ({
  ...rest,
  pozzolans: [{ grams: silica, activity: 1 }],
});

describe('sulfate of a binder', () => {
  it('keeps binders.md T18 and T19', () => {
    expect(mostHemihydrate(2.53, 3)).toBeCloseTo(0.893, 3);
    expect(mostHemihydrate(2.53, 3.5)).toBeCloseTo(1.843, 3);
    expect(mostHemihydrate(2.8, 3)).toBeCloseTo(0.382, 3);
    expect(mostHemihydrate(2.8, 3.5)).toBeCloseTo(1.337, 3);
    expect(mostHemihydrate(3.2, 3)).toBe(0);
  });

  it('solves and checks: at the most hemihydrate the SO3 is the limit', () => {
    property(fc.tuple(between(1, 2.9), between(3, 3.5)), ([cementSo3, limit]) => {
      const plaster = mostHemihydrate(cementSo3, limit);
      expect(binderSo3(100 - plaster, plaster, cementSo3)).toBeCloseTo(limit, 9);
      return true;
    });
  });

  it('lies between that of its parts', () => {
    property(fc.tuple(between(0, 100), between(0, 100)), ([portland, plaster]) => {
      if (portland + plaster === 0) return false;
      const so3 = binderSo3(portland, plaster);
      expect(so3).toBeGreaterThanOrEqual(2.8 - 1e-9);
      expect(so3).toBeLessThanOrEqual(55.17);
      return true;
    });
    expect(binderSo3(0, 0)).toBe(0);
    // 60 g of ground gypsum at 46.5 % SO3 in 500 g of cement at 2.8 %.
    expect(binderSo3(500, 0, 2.8, 0, 60 * 0.465)).toBeCloseTo(8.38, 9);
    expect([0, 8, 8.01].map(c150So3Limit)).toEqual([3, 3, 3.5]);
  });
});

describe('the engineering screen d3', () => {
  it('refuses portland and plaster without pozzolan (T28)', () => {
    const screen = sulfateScreen({ portland: 50, hemihydrate: 50, service: 'dry-indoor' });
    expect(screen.verdict).toBe('refuse');
    expect(screen.reasons).toEqual(['pozzolan-short', 'plaster-sets-the-clock']);
  });

  it('passes what stays within the cement limit, and notes or warns by service only', () => {
    const trace: SulfateCase = { portland: 99.7, hemihydrate: 0.3, service: 'dry-indoor' };
    expect(sulfateScreen(trace).verdict).toBe('pass');
    expect(sulfateScreen({ ...trace, service: 'wet' }).verdict).toBe('warn');
    expect(sulfateScreen({ ...trace, service: 'warm' }).verdict).toBe('note');
    expect(sulfateScreen({ portland: 0, hemihydrate: 50, service: 'dry-indoor' }).reasons).toEqual(['no-portland']);
    expect(sulfateScreen({ portland: 0, hemihydrate: 50, service: 'damp' }).verdict).toBe('warn');
  });

  it('asks more of natural pozzolan and half counts slag', () => {
    const with_ = (grams: number, activity: number, natural: boolean) =>
      sulfateScreen({
        portland: 100,
        hemihydrate: 50,
        pozzolans: [{ grams, activity, natural }],
        service: 'dry-indoor',
      }).verdict;
    expect(with_(30, 1, false)).toBe('warn');
    expect(with_(30, 1, true)).toBe('refuse');
    expect(with_(40, 1, true)).toBe('warn');
    expect(with_(40, 0.5, false)).toBe('refuse');
    expect(with_(50, 0.5, false)).toBe('warn');
  });

  it('has enough at just the ratio that it asks for, whatever dust arithmetic leaves', () => {
    const verdict = (portland: number, siliceous: number, natural: number): string =>
      sulfateScreen({
        portland,
        hemihydrate: 50,
        pozzolans: [
          { grams: siliceous, activity: 1 },
          { grams: natural, activity: 1, natural: true },
        ],
        service: 'dry-indoor',
      }).verdict;
    property(fc.tuple(between(1, 400), between(0, 1)), ([portland, share]) => {
      const ratio = 0.25 + 0.15 * share;
      const active = ratio * portland;
      expect(verdict(portland, (1 - share) * active, share * active)).toBe('warn');
      const less = active * (1 - 1e-5);
      expect(verdict(portland, (1 - share) * less, share * less)).toBe('refuse');
      return true;
    });
    // Tenths of a gram, as a scale shows them.
    for (let portland = 1; portland <= 300; portland++)
      expect(verdict((2 * portland) / 5, 0, (4 * portland) / 25), `${portland}`).toBe('warn');
  });

  it('tells what portland each gram of pozzolan bears: its slopes, and by itself what was tested', () => {
    expect(portlandBorne(0, 0)).toEqual({ siliceous: 4, natural: 2.5 });
    expect(portlandBorne(7, 0).siliceous).toBeCloseTo(4, 12);
    expect(portlandBorne(0, 7).natural).toBeCloseTo(2.5, 12);
    // Half of each, by hand: 2 / 0.325 - 0.25 / 0.325^2.
    expect(portlandBorne(3, 3).siliceous).toBeCloseTo(3.787, 4);
    expect(portlandBorne(3, 3).natural).toBeCloseTo(2.3669, 4);
  });

  it('never gets milder with less pozzolan, carbonate, cold or a wetter place', () => {
    property(blend, (b) => {
      const mix = caseOf(b);
      const here = rank(mix);
      expect(rank(caseOf({ ...b, silica: b.silica / 2 }))).toBeGreaterThanOrEqual(here);
      expect(rank({ ...mix, carbonate: true })).toBeGreaterThanOrEqual(here);
      expect(rank({ ...mix, cold: true })).toBeGreaterThanOrEqual(here);
      if (mix.service === 'dry-indoor') expect(rank({ ...mix, service: 'wet' })).toBeGreaterThanOrEqual(here);
      return true;
    });
  });

  it('does not mind the size of the batch', () => {
    property(
      fc.tuple(blend, between(0.1, 100)),
      ([b, f]) => {
        if (b.portland < 0.01 || b.hemihydrate < 0.01) return false;
        const scaled = caseOf({ ...b, portland: b.portland * f, hemihydrate: b.hemihydrate * f, silica: b.silica * f });
        expect(sulfateScreen(scaled).so3).toBeCloseTo(sulfateScreen(caseOf(b)).so3, 6);
        const near = Math.abs(sulfateScreen(caseOf(b)).pozzolanRatio - 0.25) < 1e-6;
        if (near) return false;
        expect(rank(scaled)).toBe(rank(caseOf(b)));
        return true;
      },
      300,
      150,
    );
  });

  it('flags thaumasite only with carbonate and cold', () => {
    const mix: SulfateCase = { portland: 70, hemihydrate: 30, carbonate: true, service: 'damp' };
    expect(sulfateScreen(mix).reasons).not.toContain('thaumasite');
    expect(sulfateScreen({ ...mix, cold: true }).reasons).toContain('thaumasite');
  });
});

describe('glass and bloom', () => {
  it('warns of glass grains in damp portland without pozzolan', () => {
    const glass = { glassSand: 100, portland: 100, pozzolanRatio: 0, service: 'damp' } as const;
    expect(alkaliGlassRisk(glass)).toBe('warn');
    expect(alkaliGlassRisk({ ...glass, service: 'dry-indoor' })).toBe('note');
    expect(alkaliGlassRisk({ ...glass, pozzolanRatio: 0.25 })).toBe('note');
    expect(alkaliGlassRisk({ ...glass, glassPowder: 25 })).toBe('note');
    expect(alkaliGlassRisk({ ...glass, portland: 0 })).toBe('none');
    expect(alkaliGlassRisk({ ...glass, glassSand: 0 })).toBe('none');
  });

  it('fears bloom most on dark, wet, watery pieces, and not without lime', () => {
    const worst = { limeBearingShare: 1, waterToBinder: 0.7, pozzolanRatio: 0, service: 'wet', dark: true } as const;
    expect(bloomRisk(worst)).toBe('high');
    expect(bloomRisk({ ...worst, service: 'dry-indoor', waterToBinder: 0.4, dark: false })).toBe('low');
    expect(bloomRisk({ ...worst, limeBearingShare: 0 })).toBe('low');
    expect(bloomRisk({ ...worst, service: 'dry-indoor', dark: false })).toBe('medium');
    expect(bloomRisk({ ...worst, limeBearingShare: 0.02 })).toBe('high');
    // One point at a time: the edges of each rule.
    const dry = {
      limeBearingShare: 1,
      waterToBinder: 0.45,
      pozzolanRatio: 0.1,
      service: 'dry-indoor',
      dark: false,
    } as const;
    expect(bloomRisk({ ...dry, dark: true })).toBe('low');
    expect(bloomRisk({ ...dry, dark: true, pozzolanRatio: 0.09 })).toBe('medium');
    expect(bloomRisk({ ...dry, service: 'damp' })).toBe('medium');
    expect(bloomRisk({ ...dry, service: 'damp', waterToBinder: 0.56 })).toBe('high');
    expect(bloomRisk({ ...dry, service: 'damp', waterToBinder: 0.55 })).toBe('medium');
    expect(bloomRisk({ ...dry, service: 'damp', waterToBinder: 0.46, dark: true })).toBe('high');
  });
});

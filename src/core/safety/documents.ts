import type { CautionStatus, Region } from './caution.js';

export interface Document {
  readonly title: string;
  /** `looked-up` only where the statement itself was read, if in a copy or abstract; the title says so. */
  readonly status: CautionStatus;
  /** Where it was read. */
  readonly seen?: string;
  /** It speaks for one region only and is not named in the other. */
  readonly region?: Region;
}

/** The documents the cautions rest on, each named once. One entry a passage, since some passages were read and others recalled. */
export const DOCUMENTS = {
  // dust
  'osha-silica': {
    region: 'US',
    title: 'OSHA 29 CFR 1910.1053, limit 50 and action level 25 µg/m³',
    status: 'looked-up',
    seen: 'https://www.osha.gov/laws-regs/standardinterpretations/2018-06-25',
  },
  'osha-silica-housekeeping': {
    title: 'OSHA 29 CFR 1910.1053(h)(1) and 1926.1153(f)',
    status: 'looked-up',
    seen: 'https://osha.gov/laws-regs/standardinterpretations/2018-11-02-0',
  },
  'eu-silica': {
    region: 'EU',
    title: 'Directive (EU) 2019/130 and UK EH40, 0.1 mg/m³ respirable silica',
    status: 'from-memory',
  },
  'iarc-silica': { title: 'IARC Monograph 100C, inhaled quartz, group 1', status: 'from-memory' },
  'osha-table-z1': {
    region: 'US',
    title: 'OSHA 29 CFR 1910.1000 Table Z-1, 15 mg/m³ total and 5 mg/m³ respirable dust',
    status: 'looked-up',
    seen: 'https://www.osha.gov/dts/chemicalsampling/data/CH_263800.html',
  },
  'osha-table-z3': {
    title: 'OSHA Table Z-3, amorphous silica (read in a discussion of it)',
    status: 'looked-up',
    seen: 'https://www.ilpi.com/dchas/2012/20120628e.html',
  },
  'niosh-respirators': {
    title: 'NIOSH publication 2008-140, respirators for crystalline silica',
    status: 'looked-up',
    seen: 'http://cdc.gov/niosh/docs/2008-140',
  },
  'hse-respirators': {
    region: 'EU',
    title: 'UK HSE, FFP3 for silica dust (protection factor 20)',
    status: 'from-memory',
  },
  'osha-fibres': {
    title: 'OSHA, synthetic mineral fibres: health effects',
    status: 'looked-up',
    seen: 'https://www.osha.gov/synthetic-mineral-fibers/health-effects',
  },
  'niosh-perlite': {
    title: 'NIOSH comment on perlite dust',
    status: 'looked-up',
    seen: 'https://www.cdc.gov/niosh/pel88/PERLITE.html',
  },
  'vermiculite-asbestos': { title: 'US EPA, asbestos in vermiculite', status: 'from-memory' },
  'iarc-pigments': { title: 'IARC, carbon black and titanium dioxide dust, group 2B', status: 'from-memory' },
  'cjeu-titania': {
    region: 'EU',
    title: 'EU Court of Justice, 1 August 2025, C-71/23 P: EU class of titanium dioxide powder annulled',
    status: 'looked-up',
    seen: 'https://natlawreview.com/article/european-court-justice-upholds-decision-annulling-harmonized-classification-and',
  },
  // alkali
  'hse-cis26': {
    title: 'UK HSE Construction Information Sheet 26 rev 2, Cement (read in a copy)',
    status: 'looked-up',
    seen: 'https://pdf4pro.com/amp/view/cis26-cement-2c50d2.html',
  },
  'levine-2024': {
    title: 'Levine et al. 2024, Adv. Skin & Wound Care 37(6):292 (abstract)',
    status: 'looked-up',
    seen: 'https://ouci.dntb.gov.ua/en/works/96nngRN9',
  },
  'icsc-0408': {
    title: 'International Chemical Safety Card 0408, calcium hydroxide',
    status: 'looked-up',
    seen: 'http://www.inchem.org/documents/icsc/icsc/eics0408.htm',
  },
  'reach-47': {
    region: 'EU',
    title: 'REACH Annex XVII entry 47, soluble chromium(VI) at most 2 mg/kg of cement (read in a notice)',
    status: 'looked-up',
    seen: 'http://en.jts-cert.com/en/product/544.html',
  },
  'clp-cement-label': {
    region: 'EU',
    title: 'CLP Annex II 2.3, date and storage on cement packs',
    status: 'looked-up',
    seen: 'https://reachonline.eu/clp/en/annex-ii-2-2.3.html',
  },
  'reducer-age': {
    region: 'EU',
    title: 'Danish building sector guidance, cement: two months once opened',
    status: 'looked-up',
    seen: 'https://bfa-ba.dk/cement/',
  },
  'us-chromate': { region: 'US', title: 'No United States limit on chromium(VI) in cement', status: 'from-memory' },
  'osha-soap': {
    title: 'OSHA on cement and skin: clean water and pH-neutral soap',
    status: 'looked-up',
    seen: 'http://osha.gov/pls/oshaweb/owadisp.show_document?p_table=NEWS_RELEASES&p_id=14970',
  },
  'eu-dust': { region: 'EU', title: 'National limits for dust at work', status: 'from-memory' },
  'cac-flash-set': {
    title: 'Handbook of Thermal Analysis of Construction Materials, p. 373',
    status: 'looked-up',
    seen: 'https://digilib.universitaspertamina.ac.id/ebook/HANDBOOK%20OF%20THERMAL%20ANALYSIS%20OF%20CONSTRUCTION%20MATERIALS/files/basic-html/page395.html',
  },
  'csa-extra-gypsum': {
    title: 'Paper from EPFL, 2013: aluminate and sulfoaluminate cements with added gypsum, under water (abstract)',
    status: 'looked-up',
    seen: 'https://infoscience.epfl.ch/record/198060',
  },
  'csa-portland-gypsum': {
    title: 'Telesca et al., 3rd SCMT conference: CSA, Portland and gypsum 40:40:20 expands (abstract, read in a copy)',
    status: 'looked-up',
    seen: 'https://www.scribd.com/document/209762244/Expansive-and-Non-expansive-Calcium-Sulfoaluminate-based-Cements',
  },
  'csa-portland-set': {
    title: 'Materials 2020, PMC7178113: Portland with 17 % CSA needs retarders against its quick set (abstract)',
    status: 'looked-up',
    seen: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC7178113',
  },
  'csa-lime': { title: 'Cement chemistry: lime lets CSA with sulfate set sooner and swell', status: 'from-memory' },
  // heat
  'burns-1982': {
    title: 'Burns 1982, doi 10.1016/0305-4179(82)90135-8 (abstract)',
    status: 'looked-up',
    seen: 'https://litmetric.com/detail/7172075/Heat-generation-in-plaster-of-Paris-and-resulting-hand-burns',
  },
  'boston-2009': {
    title: 'Court report, school plaster accident of 2007, Boston (UK), October 2009',
    status: 'looked-up',
    seen: 'https://www.theguardian.com/education/2009/oct/12/girl-loses-fingers-school-art',
  },
  'skin-heat': { title: 'Moritz and Henriques 1947, skin burns by time and temperature', status: 'from-memory' },
  'wilkes-2004': {
    title: 'Wilkes, Atchley and Childs, ASHRAE 2004, mass loss of calcium sulfate',
    status: 'looked-up',
    seen: 'https://it.scribd.com/document/187792809/CaSO4-Mass-Loss',
  },
  'zhou-glasser-2001': {
    title: 'Zhou and Glasser 2001, thermal stability of ettringite (abstract)',
    status: 'looked-up',
    seen: 'https://abdn.elsevierpure.com/en/publications/thermal-stability-and-decomposition-mechanisms-of-ettringite-at',
  },
  'ettringite-1996': {
    title: 'Thermal decomposition of ettringite, J. Chem. Soc. Faraday Trans. 1996 (abstract)',
    status: 'looked-up',
    seen: 'https://doi.org/10.1039/FT9969202125',
  },
  'ettringite-dry': {
    title: 'Ettringite losing water in the air of a warm room',
    status: 'from-memory',
  },
  'astm-candles': {
    region: 'US',
    title: 'ASTM F2417 (scope)',
    status: 'looked-up',
    seen: 'http://www.astm.org/Standards/F2417.htm',
  },
  'astm-candle-holders': {
    region: 'US',
    title: 'ASTM F2601 (scope)',
    status: 'looked-up',
    seen: 'https://www.scribd.com/document/461882890/F2601-pdf',
  },
  'en-candles': {
    region: 'EU',
    title: 'EN 15493 and EN 15494 (scope, as an authority describes it)',
    status: 'looked-up',
    seen: 'https://tukes.fi/en/products-and-services/general-consumer-goods/requirements-on-indoor-candles',
  },
  'steam-spalling': {
    title: 'Cement and Concrete Research 116 (2019) 1-10 (abstract)',
    status: 'looked-up',
    seen: 'https://c.coek.info/pdf-effect-of-moisture-migration-and-water-vapor-pressure-build-up-with-the-heating-.html',
  },
  'nist-concrete-heat': {
    title: 'NIST, Phan and Carino, concrete at high temperature (read in a copy)',
    status: 'looked-up',
    seen: 'https://www.scribd.com/doc/292782668/Concrete-Research',
  },
  // labels of mixtures
  'clp-ph': {
    title: 'CLP Annex I 3.2.3.1.2, pH 11.5 and above counts as corrosive',
    status: 'looked-up',
    seen: 'https://reachonline.eu/clp/en/annex-i-3-3.2-3.2.3.html',
  },
  'clp-skin': {
    region: 'EU',
    title: 'CLP Annex I Table 3.2.3, skin (read in an ECHA helpdesk exercise, 2012)',
    status: 'looked-up',
    seen: 'https://paperzz.com/doc/7927667/mixture-classification---exercises',
  },
  'clp-eye': { region: 'EU', title: 'CLP Annex I Table 3.3.3, eyes', status: 'from-memory' },
  'clp-allergy': { region: 'EU', title: 'CLP Annex I Table 3.4.5, sensitisers', status: 'from-memory' },
  'clp-target-organs': {
    region: 'EU',
    title: 'CLP Annex I Tables 3.8.3 and 3.9.4, airways and repeated exposure (read in German TRGS 201)',
    status: 'looked-up',
    seen: 'https://haufe.de/arbeitsschutz/arbeitsschutz-office-professional/trgs-201-einstufung-und-kennzeichnung-bei-taetigkeiten-m-226-spezifisch-zielorgantoxische-gemische_idesk_PI13633_HI10700181.html',
  },
  'osha-target-organs': {
    region: 'US',
    title: 'OSHA interpretation letter of 4 March 2014, target organs from 1 %',
    status: 'looked-up',
    seen: 'https://www.osha.gov/laws-regs/standardinterpretations/2014-03-04',
  },
  'clp-reproduction': {
    region: 'EU',
    title: 'CLP Annex I Table 3.7.2, toxic to reproduction',
    status: 'looked-up',
    seen: 'https://reachonline.eu/clp/en/annex-i-3-3.7-3.7.3.html',
  },
  'clp-other-classes': { region: 'EU', title: 'CLP Annex I, chapters 3.1, 3.5 and 3.6', status: 'from-memory' },
  'hazcom-limits': {
    region: 'US',
    title: 'OSHA 29 CFR 1910.1200 Appendix A, limits for mixtures',
    status: 'from-memory',
  },
  'eu-2021-849': {
    region: 'EU',
    title: 'Regulation (EU) 2021/849, borates fall under the general 0.3 % (read in notices of it)',
    status: 'looked-up',
    seen: 'https://www.intertek.com/consumer/insight-bulletins/clp-regulation-to-lower-concentration-limits-for-certain-boron-compounds-amended/',
  },
  'citric-class': {
    region: 'EU',
    title: 'Regulation (EU) 2021/849, class of citric acid (read in a notice of it)',
    status: 'looked-up',
    seen: 'https://karty-sds.pl/blog/17-atp-do-clp',
  },
  'rac-lithium': {
    title: 'ECHA RAC opinion of 2021 on lithium salts, reaffirmed March 2024, not yet law when read',
    status: 'looked-up',
    seen: 'https://www.chemradar.com/news/detail/di9vq4bfcem8',
  },
  'euh-208': { region: 'EU', title: 'CLP Annex II 2.8, preservatives named on the label', status: 'from-memory' },
  'metal-pigments': {
    title: 'Printmakers’ note on metal pigments',
    status: 'looked-up',
    seen: 'https://www.nontoxicprint.com/metalpigments.htm',
  },
  'green-pigment': { title: 'Purity of chromium oxide green', status: 'from-memory' },
  'astm-c979': {
    title: 'ASTM C979 1.4, pigment at most 10 % of the cement (read in a quotation)',
    status: 'looked-up',
    seen: 'https://cscecompetitions.ca/en/2019-cnccc-rfi-3/',
  },
  // service
  'gypsum-solubility': {
    title: 'Thermodynamic database of BRGM, solubility of gypsum',
    status: 'looked-up',
    seen: 'https://thermoddem.brgm.fr',
  },
  ettringite: {
    title: 'EP 1081113 A1, background: expansion of set cement by later ettringite',
    status: 'looked-up',
    seen: 'https://data.epo.org/publication-server/rest/v1.2/publication-dates/20010307/patents/EP1081113NWA1/document.html',
  },
  'sulfate-screen': { title: 'Sulfate screen of this project, an engineering screen, not a standard', status: 'ours' },
  thaumasite: {
    title: 'Shi, Wang and Behnood, J. Mater. Civ. Eng. 2012, thaumasite review',
    status: 'looked-up',
    seen: 'https://scribd.com/document/744078497/Review-of-Thaumasite-Sulfate-Attack-on',
  },
  'food-contact': { title: '21 CFR 175.300 and Regulation (EC) 1935/2004, food contact', status: 'from-memory' },
  'gypsum-landfill': {
    title: 'Building, report on gypsum waste and landfill in the United Kingdom',
    status: 'looked-up',
    seen: 'https://www.building.co.uk/news/gypsum-waste-banned-from-landfill/3137433.article',
  },
  'epa-washout': {
    title: 'US EPA 833-F-11-006, concrete washout (read in a copy)',
    status: 'looked-up',
    seen: 'https://fdocuments.net/document/epa-guidline-for-concrete-wash-out.html',
  },
  // first aid
  'nhs-burns': {
    title: 'NHS advice on chemical burns (read as a health council passed it on, 2014): skin 20 minutes or more',
    status: 'looked-up',
    seen: 'https://lambethhcc.wordpress.com/2014/06/09/nhs-advice-on-treating-chemical-burns-and-eye-flushing/',
  },
  'first-aid-memory': { title: 'First-aid teaching', status: 'from-memory' },
  // no document
  'common-practice': { title: 'Common practice, no source', status: 'common-practice' },
  ours: { title: 'Judgement of this project', status: 'ours' },
} as const satisfies Readonly<Record<string, Document>>;

export type DocumentKey = keyof typeof DOCUMENTS;

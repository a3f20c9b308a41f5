export { assess, evaluate } from './blend/assess.js';
export type { Conditions } from './blend/conditions.js';
export { POURS } from './blend/conditions.js';
export type { FigureTables } from './blend/figure-keys.js';
export { cost } from './blend/properties/cost.js';
export { PROPERTIES, propertyById } from './blend/properties/index.js';
export type { Property, Quantity } from './blend/property.js';
export type { Target } from './blend/target.js';
export { worldOf } from './blend/world.js';
export { HARDNESSES, MEDIUM_KINDS, mediumSchema } from './brief/medium-schema.js';
export { UNPRICED } from './brief/play.js';
export type { Part } from './brief/read-amounts.js';
export type { Brief } from './brief/read-brief.js';
export { readBrief } from './brief/read-brief.js';
export { readMedium } from './brief/read-medium.js';
export { readRecipe } from './brief/read-recipe.js';
export { readShop } from './brief/read-shop.js';
export { readLimit } from './brief/read-targets.js';
export type { WrittenBrief, WrittenMould, WrittenRecipe, WrittenShop } from './brief/schema.js';
export { BASES, briefSchema, recipeSchema, shopSchema } from './brief/schema.js';
export type { Shelf, Shop } from './brief/shelf.js';
export { DEFAULT_SHOP } from './brief/shelf.js';
export { shelfOf } from './brief/shelf-of.js';
export type { ModelFigures } from './materials/model-figures.js';
export { overlay } from './materials/overlay.js';
export type { PriceList } from './materials/price-list.js';
export { readPrices } from './materials/price-list.js';
export type { Material } from './materials/schema.js';
export type { MaterialTable, TableData } from './materials/table.js';
export { materialTable } from './materials/table.js';
export type { Kind } from './materials/words.js';
export { KINDS, SERVICES } from './materials/words.js';
export { alternatives } from './optimise/alternatives.js';
export { collidingTargets } from './optimise/colliding-targets.js';
export { frontier } from './optimise/frontier.js';
export { missingMaterials } from './optimise/missing-materials.js';
export { AIMS } from './optimise/objective.js';
export { betterWay } from './optimise/preference.js';
export type { Proposal } from './optimise/propose.js';
export { propose } from './optimise/propose.js';
export type { Near } from './optimise/propose-near.js';
export { proposeNear } from './optimise/propose-near.js';
export type { Objective } from './optimise/question.js';
export { MOST_PARTS, OBJECTIVES, PARTS_BY } from './optimise/question.js';
export { whatHoldsBack } from './optimise/reasons.js';
export { standIn } from './optimise/stand-in.js';
export { proposeSurely } from './optimise/sure.js';
export { nearestWord } from './problems/nearest.js';
export { InputProblems, refuse } from './problems/problem.js';
export { explain } from './problems/words.js';
export { dottedPlaces, unlined } from './reading/located.js';
export { checkShape } from './reading/shape.js';
export { readYaml } from './reading/yaml.js';
export { alternativesResult } from './report/alternatives-result.js';
export { barred, stopsIn } from './report/barred.js';
export { cardHtml } from './report/card-html.js';
export { layersOf } from './report/card-layers.js';
export { scoopWords, stageMinutes, timerWords } from './report/card-print.js';
export { cardResult } from './report/card-result.js';
export type { CardLayer, CardResult } from './report/card-schema.js';
export { chanceWords } from './report/chance-words.js';
export { limitWords, notWeighedWords, partsWords, systemWords } from './report/choice-words.js';
export { figureIn } from './report/figure-units.js';
export { fillsWords } from './report/fills-words.js';
export { fitDoubts, UNTRUSTED_FIT } from './report/fit-words.js';
export { frontierCsv, frontierResult } from './report/frontier-result.js';
export type { FrontierResult } from './report/frontier-schema.js';
export { frontierSvg } from './report/frontier-svg.js';
export { reachableLimit } from './report/gain-words.js';
export { marginWords, printBeside, printMargin, printMiss } from './report/margin-words.js';
export type { Mixed } from './report/mixed.js';
export { mixedBrief, mixedRecipe } from './report/mixed.js';
export { mouldCount, wasteTakenOff } from './report/mould-words.js';
export { orderBlend, quickerBlend } from './report/order-blend.js';
export { orderResult } from './report/order-result.js';
export type { OrderResult } from './report/order-schema.js';
export { ownFigureWords } from './report/own-figure-words.js';
export { fitResult, poursResult } from './report/pours-result.js';
export type { FitResult, PoursResult, ShownPour } from './report/pours-schema.js';
export { priceResult } from './report/price-result.js';
export type { PricedBlend, PriceResult } from './report/price-schema.js';
export type { Wording } from './report/print.js';
export {
  printAs,
  printDifference,
  printLimit,
  printProperty,
  printWindow,
  significant,
  significantShown,
} from './report/print.js';
export { problemResult } from './report/problem-result.js';
export { rangeWords } from './report/range-words.js';
export { reasonsResult, surenessResult, unpricedOf, waysOutResult } from './report/reasons-result.js';
export type { ReasonsResult, SurenessResult, WaysOutResult } from './report/reasons-schema.js';
export { NO_REASONS, reasonsWords } from './report/reasons-words.js';
export { proposalResult } from './report/result.js';
export type {
  AssessmentResult,
  IngredientResult,
  ProblemResult,
  ProposalResult,
  VerdictResult,
} from './report/result-schema.js';
export { spreadWords } from './report/spread-words.js';
export { standInResult } from './report/stand-in-result.js';
export type { CandidateResult, StandInResult } from './report/stand-in-schema.js';
export { farnessWords, MEDIUM_WORDS, offWords, printWanted, tellsWords } from './report/stand-in-words.js';
export { surenessWords } from './report/sureness-words.js';
export { roundTicks } from './report/ticks.js';
export { isTold, printLikely, printTold, printToldOf } from './report/told-figures.js';
export { scoopsOf, volumeWords } from './report/volume-words.js';
export { onScale, printBatch, printFine } from './report/weighed.js';
export { FINISHINGS, MOULD_STUFFS, PEOPLE, USES } from './safety/facts.js';
export { weightAfter } from './shop/drying-time.js';
export { learnedFile, learnedSchema, overlayLearned } from './shop/learned.js';
export { orderSchema, readOrder } from './shop/order-file.js';
export { planOrder } from './shop/order-plan.js';
export { packsOnSale } from './shop/packs-on-sale.js';
export { blendText } from './shop/pours-cells.js';
export type { PourRow } from './shop/pours-columns.js';
export { newRecord, pourLine } from './shop/pours-columns.js';
export { fittedCurve } from './shop/pours-curve.js';
export type { Measured } from './shop/pours-fit.js';
export { fitFigures } from './shop/pours-fit.js';
export { knownPour } from './shop/pours-known.js';
export type { KnownPour } from './shop/pours-measured.js';
export { measuredPour, wasteFigure } from './shop/pours-measured.js';
export type { Pour } from './shop/pours-record.js';
export { nextName, readPours } from './shop/pours-record.js';
export { priceCsv } from './shop/price-export.js';
export { shopTemplate } from './shop/shop-template.js';
export { inUnits, wordsIn } from './units/marked.js';
export { parseMoney, printMoney } from './units/money.js';
export type { UnitSystem } from './units/print.js';
export { printQuantity } from './units/print.js';
export { parseAmount, parseQuantity } from './units/quantity.js';
export { unparted } from './units/unparted.js';

export { assess, evaluate } from './blend/assess.js';
export { POURS } from './blend/conditions.js';
export { cost } from './blend/properties/cost.js';
export { PROPERTIES, propertyById } from './blend/properties/index.js';
export type { Property, Quantity } from './blend/property.js';
export { worldOf } from './blend/world.js';
export type { Brief } from './brief/read-brief.js';
export { readBrief } from './brief/read-brief.js';
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
export type { Kind, Material } from './materials/schema.js';
export { KINDS, SERVICES } from './materials/schema.js';
export type { MaterialTable, TableData } from './materials/table.js';
export { materialTable } from './materials/table.js';
export type { Near } from './optimise/propose-near.js';
export { proposeNear } from './optimise/propose-near.js';
export { OBJECTIVES } from './optimise/question.js';
export { nearestWord } from './problems/nearest.js';
export { InputProblems, refuse } from './problems/problem.js';
export { explain } from './problems/words.js';
export { dottedPlaces } from './reading/located.js';
export { checkShape } from './reading/shape.js';
export { readYaml } from './reading/yaml.js';
export { cardHtml } from './report/card-html.js';
export { layersOf } from './report/card-layers.js';
export { onScale, scoopWords, stageMinutes, timerWords } from './report/card-print.js';
export { cardResult } from './report/card-result.js';
export type { CardLayer, CardResult } from './report/card-schema.js';
export type { Mixed } from './report/mixed.js';
export { mixedBrief, mixedRecipe } from './report/mixed.js';
export { orderBlend, quickerBlend } from './report/order-blend.js';
export { orderResult } from './report/order-result.js';
export type { OrderResult } from './report/order-schema.js';
export { priceResult } from './report/price-result.js';
export type { PricedBlend, PriceResult } from './report/price-schema.js';
export type { Wording } from './report/print.js';
export { printAs, printDifference, printProperty, printWindow, significant } from './report/print.js';
export { problemResult } from './report/problem-result.js';
export { proposalResult } from './report/result.js';
export type {
  AssessmentResult,
  IngredientResult,
  ProblemResult,
  ProposalResult,
  VerdictResult,
} from './report/result-schema.js';
export { FINISHINGS, MOULD_STUFFS, PEOPLE, USES } from './safety/facts.js';
export { weightAfter } from './shop/drying-time.js';
export { orderSchema, readOrder } from './shop/order-file.js';
export { planOrder } from './shop/order-plan.js';
export { packsOnSale } from './shop/packs-on-sale.js';
export { priceCsv } from './shop/price-export.js';
export { shopTemplate } from './shop/shop-template.js';
export { parseMoney, printMoney } from './units/money.js';
export type { UnitSystem } from './units/print.js';
export { printQuantity } from './units/print.js';
export { parseAmount, parseQuantity } from './units/quantity.js';

export { assess, evaluate } from './blend/assess.js';
export { PROPERTIES, propertyById } from './blend/properties/index.js';

/**
 * The page asks the browser to refuse text as markup or as a script's address (Trusted Types). Two doors are left, both
 * for what the page itself made: the worker's blob, and the printed card, whose text the core has escaped.
 */
interface TrustedPolicy {
  createHTML(html: string): string;
  createScriptURL(url: string): string;
}

interface TrustedFactory {
  createPolicy(
    name: string,
    rules: { createHTML(s: string): string; createScriptURL(s: string): string },
  ): TrustedPolicy;
}

const rules = {
  // Read by print-card.ts alone, into a document that runs nothing and is looked through before it is shown.
  createHTML: (html: string): string => html,
  createScriptURL: (url: string): string => {
    if (!url.startsWith('blob:')) throw new TypeError('only the page’s own worker may be started');
    return url;
  },
};

const factory = (globalThis as { trustedTypes?: TrustedFactory }).trustedTypes;
let policy: TrustedPolicy | null = null;

/** Made when first needed: a worker has no use for it. */
export const trusted = (): TrustedPolicy => {
  policy ??= factory?.createPolicy('bench', rules) ?? rules;
  return policy;
};

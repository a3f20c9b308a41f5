import { trusted } from '../state/trusted.js';

/**
 * Prints the very card the command line writes: its page is read without running anything, put into a shadow of this
 * page with its own styles, and only that is printed.
 */
export function printCard(html: string, paper: 'a4' | 'letter'): void {
  // The style goes in by another door: as an element the page's content policy would refuse it, even here.
  const style = STYLE.exec(html)?.[1] ?? '';
  const card = new DOMParser().parseFromString(trusted().createHTML(html.replace(STYLE, '')), 'text/html');
  const main = card.querySelector('main');
  if (main === null || !isPlain(main)) return;
  document.getElementById('print')?.remove();
  const host = document.createElement('div');
  host.id = 'print';
  const shadow = host.attachShadow({ mode: 'open' });
  const inside = new CSSStyleSheet();
  // The card's page is this shadow here.
  inside.replaceSync(
    style
      .replace(/@page\{[^}]*\}/g, '')
      .replace(/:root\{/g, ':host{')
      .replace(/(^|\})\s*body\{/g, '$1:host{'),
  );
  shadow.adoptedStyleSheets = [inside];
  shadow.append(document.importNode(main, true));
  document.body.append(host);
  const page = new CSSStyleSheet();
  page.replaceSync(`@page{size:${paper === 'a4' ? 'A4' : 'letter'} portrait;margin:9mm}`);
  const before = document.adoptedStyleSheets;
  document.adoptedStyleSheets = [...before, page];
  document.documentElement.classList.add('printing');
  const done = (): void => {
    document.documentElement.classList.remove('printing');
    document.adoptedStyleSheets = before;
    host.remove();
  };
  addEventListener('afterprint', done, { once: true });
  print();
}

const STYLE = /<style>([^<]*)<\/style>/;

const DRAWN =
  /^(?:main|header|section|div|h[1-3]|p|b|i|span|ul|ol|li|table|caption|thead|tbody|tr|t[hd]|svg|g|title|desc|defs|pattern|clipPath|path|rect|circle|text)$/;

/** Only what a card is made of, and no attribute that could act. */
const isPlain = (main: Element): boolean =>
  [main, ...main.querySelectorAll('*')].every(
    (part) =>
      DRAWN.test(part.localName) &&
      [...part.attributes].every((a) => !/^on|href|src|style/i.test(a.name) && !/url\((?!#)/i.test(a.value)),
  );

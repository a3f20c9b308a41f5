import { trusted } from '../state/trusted.js';

/**
 * Prints the very card the command line writes: its page is read without running anything, put into a shadow of this
 * page with its own styles, and only that is printed.
 */
export function printCard(html: string, paper: 'a4' | 'letter'): void {
  const card = new DOMParser().parseFromString(trusted().createHTML(html), 'text/html');
  const main = card.querySelector('main');
  const style = card.querySelector('style')?.textContent ?? '';
  if (main === null) return;
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

import { type ComponentChild, h, options, type VNode } from 'preact';
import { unparted } from '../../core/index.js';

/** Elements that hold words; a drawing's and a control's own are left as they are. */
const WORDY = new Set(['p', 'li', 'td', 'th', 'dd', 'dt', 'small', 'b', 'span', 'div', 'h1', 'h2', 'h3', 'figcaption']);

/** A figure with its unit and what touches them, in a text where they are joined. */
const JOINED = /[^ \n]*\u00a0[^ \n]*/g;

/** A text in parts, of which those with a figure and its unit stay on one line. */
function kept(child: unknown): unknown {
  if (typeof child !== 'string') return child;
  const text = unparted(child);
  const found = [...text.matchAll(JOINED)];
  if (found.length === 0) return child;
  const parts: ComponentChild[] = [];
  let from = 0;
  for (const { 0: joined, index } of found) {
    const to = index + joined.length;
    parts.push(child.slice(from, index), h('bdi', null, child.slice(index, to)));
    from = to;
  }
  return [...parts, child.slice(from)];
}

/** No figure of the page is parted from its unit at the end of a line. The words themselves stay as they are. */
export function keepUnits(): void {
  const before = options.vnode;
  options.vnode = (node: VNode): void => {
    const props = node.props as { children?: unknown };
    if (typeof node.type === 'string' && WORDY.has(node.type)) {
      const { children } = props;
      if (Array.isArray(children)) props.children = children.map(kept);
      else if (typeof children === 'string') props.children = kept(children);
    }
    before?.(node);
  };
}

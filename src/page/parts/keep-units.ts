import { options, type VNode } from 'preact';
import { unparted } from '../../core/index.js';

const kept = (child: unknown): unknown => (typeof child === 'string' ? unparted(child) : child);

/** What controls are called by is left as it is: they are sought and spoken to by it. */
const NAMED = new Set(['label', 'button', 'option', 'legend']);

/** No figure of the page is parted from its unit at the end of a line; what is typed, kept or saved is as it was. */
export function keepUnits(): void {
  const before = options.vnode;
  options.vnode = (node: VNode): void => {
    if (typeof node.type === 'string' && !NAMED.has(node.type)) {
      const props = node.props as { children?: unknown };
      const { children } = props;
      if (Array.isArray(children)) props.children = children.map(kept);
      else if (typeof children === 'string') props.children = kept(children);
    }
    before?.(node);
  };
}

/** A MusicXML element on its way out. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string | number | undefined>>;
  readonly children: readonly Child[];
}
export type Child = Element | string | undefined;

/** Makes an element; children that are `undefined` are left out. */
export function element(
  name: string,
  attributes: Element["attributes"] = {},
  ...children: readonly (Child | number | readonly Child[])[]
): Element {
  const flat = children.flat().map((child) => (typeof child === "number" ? String(child) : (child as Child)));
  return { name, attributes, children: flat };
}

/** Element as indented text, escaped. */
export function serialize({ name, attributes, children }: Element, depth = 0): string {
  const indent = "  ".repeat(depth);
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${escapeText(String(value))}"`)
    .join("");
  const inner = children.filter((child): child is Element | string => child !== undefined);
  if (inner.length === 0) return `${indent}<${name}${written}/>\n`;
  if (inner.every((child) => typeof child === "string")) {
    return `${indent}<${name}${written}>${inner.map(escapeText).join("")}</${name}>\n`;
  }
  const nested = inner.map((child) =>
    typeof child === "string" ? escapeText(child) : serialize(child, depth + 1),
  );
  return `${indent}<${name}${written}>\n${nested.join("")}${indent}</${name}>\n`;
}

function escapeText(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}

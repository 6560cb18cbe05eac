import type { Page } from "playwright-core";

export interface PageWatch {
  /** What happened on the page that no text of a score or a player may cause, since it was watched. */
  readonly acts: readonly string[];
  /** What stands on the page now that only a text taken for markup can have put there. */
  findForeign(): Promise<string[]>;
  /** The text that stands on the page now, the score's included, with single spaces. */
  readText(): Promise<string>;
}

/** Watches a page from before its first address on. `acted` is what hostile texts would call. */
export async function watchPage(page: Page, url: string): Promise<PageWatch> {
  const acts: string[] = [];
  await page.exposeFunction("acted", (what: unknown) => acts.push(`ran: ${what}`));
  await page.exposeFunction("refused", (what: string) => acts.push(`refused by the policy: ${what}`));
  await page.addInitScript(() => {
    addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI, sample }) => {
      // zod tries whether it may compile its checks, and goes without.
      if (blockedURI === "eval") return;
      const { refused } = window as unknown as { refused: (what: string) => void };
      refused(`${violatedDirective} ${blockedURI} ${sample}`);
    });
  });
  page.on("dialog", (dialog) => {
    acts.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on("request", (request) => {
    const asked = new URL(request.url());
    const isOurs = asked.origin === new URL(url).origin || ["data:", "blob:"].includes(asked.protocol);
    // "x" is what hostile images ask for.
    if (!isOurs || asked.pathname.endsWith("/x")) acts.push(`asked for ${request.url()}`);
  });
  return {
    acts,
    findForeign: async () => [
      ...page
        .frames()
        .slice(1)
        .map((frame) => `frame ${frame.url()}`),
      ...(await page.evaluate(listForeign)),
    ],
    readText: () => page.evaluate(readAllText),
  };
}

/** Runs in the page. */
function listForeign(): string[] {
  const found: string[] = [];
  const drawn = new Set(
    "svg g defs path rect ellipse circle line polygon polyline use text tspan style".split(" "),
  );
  const never = new Set(
    "iframe frame object embed base applet math marquee foreignObject animate set".split(" "),
  );
  const addresses = new Set(
    "href xlink:href src srcset action formaction data poster background srcdoc ping".split(" "),
  );
  // What React itself writes into a form that a function answers; a browser never gets there.
  const ofReact = "javascript:throw new Error('A React form was unexpectedly submitted.";
  const isOwnAddress = (value: string) => {
    if (value.startsWith(ofReact)) return true;
    const { origin, protocol } = new URL(value, location.href);
    return origin === location.origin || protocol === "blob:" || /^data:(image|font)\//.test(value);
  };
  const judge = (element: Element, isDrawn: boolean) => {
    const tell = (why: string) => found.push(`${why}: ${element.outerHTML.slice(0, 200)}`);
    if (never.has(element.localName)) tell("element");
    if (isDrawn && !drawn.has(element.localName)) tell("element in a drawing");
    if (element.hasAttribute("data-hostile")) tell("hostile element");
    if (element instanceof HTMLScriptElement && !element.nonce && !element.src)
      tell("script without a nonce");
    for (const { name, value } of element.attributes) {
      if (name.startsWith("on")) tell(`handler ${name}`);
      if (addresses.has(name) && !isOwnAddress(value)) tell(`foreign address ${name}`);
    }
  };
  const isDrawing = (root: Document | ShadowRoot) =>
    root instanceof ShadowRoot
      ? root.host.closest("[aria-label='Score']") !== null
      : root.documentElement instanceof SVGElement;
  const visit = (root: Document | ShadowRoot) => {
    const isDrawn = isDrawing(root);
    for (const element of root.querySelectorAll("*")) {
      judge(element, isDrawn);
      if (element.shadowRoot) visit(element.shadowRoot);
    }
  };
  visit(document);
  return found;
}

/** Runs in the page. */
function readAllText(): string {
  const silent = new Set(["script", "style", "template", "noscript"]);
  const read = (node: Node): string => {
    if (node instanceof Text) return node.data;
    if (node instanceof Element && silent.has(node.localName)) return "";
    const inside = [...node.childNodes].map(read);
    const shadow = node instanceof Element && node.shadowRoot ? [read(node.shadowRoot)] : [];
    return [...inside, ...shadow].join("");
  };
  return read(document.body).replace(/\s+/g, " ");
}

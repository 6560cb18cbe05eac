import { SaxesParser } from "saxes";
import { failure, type Result, success } from "@/lib/score/result";
import { readLimits } from "./limits";
import { hasOverlongToken } from "./overlong-token";
import { ReadFailure } from "./read-failure";
import type { ReadProblem } from "./read-problem";
import type { XmlDoctype, XmlDocument, XmlElement, XmlNode } from "./xml-tree";

export interface ParseOptions {
  /** False leaves out text that is only white space. Default true: the document is kept whole. */
  readonly keepBlankText?: boolean;
  /** Called when an element is complete, with the elements around it, the root first. Answer "drop" to forget it. */
  readonly onClose?: (closed: XmlElement, around: readonly XmlElement[]) => "keep" | "drop";
}

/**
 * Parses XML text within `readLimits`. No document type declaration is loaded, an internal subset is refused, and
 * only XML's own five entities and character references are known, so that nothing can expand.
 *
 * @returns `not-well-formed` with line and column (from 1), or which limit was passed.
 */
export function parseXml(text: string, options: ParseOptions = {}): Result<XmlDocument, ReadProblem> {
  if (text.length > readLimits.textBytes) return failure({ kind: "text-too-large" });
  if (hasOverlongToken(text)) return failure({ kind: "token-too-long" });
  try {
    return success(new TreeBuilder(options).build(text));
  } catch (error) {
    if (error instanceof ReadFailure) return failure(error.problem);
    const fault = readFault(error);
    if (fault === null) throw error;
    return failure(fault);
  }
}

/** Without a listener for errors the parser throws them as `line:column: sentence.` */
function readFault(error: unknown): ReadProblem | null {
  const match = error instanceof Error ? /^(\d+):(\d+): (.*?)\.?$/s.exec(error.message) : null;
  if (!match) return null;
  return { kind: "not-well-formed", line: Number(match[1]), column: Number(match[2]), fault: match[3] ?? "" };
}

class TreeBuilder {
  private readonly parser = new SaxesParser({ xmlns: false, position: true });
  private readonly open: XmlElement[] = [];
  private readonly prolog: (XmlNode | XmlDoctype)[] = [];
  private readonly epilog: XmlNode[] = [];
  private readonly names = new Map<string, string>();
  private readonly keepBlankText: boolean;
  private root: XmlElement | null = null;
  private nodeCount = 0;
  private attributes: Record<string, string> = {};
  private attributeCount = 0;

  constructor(private readonly options: ParseOptions) {
    this.keepBlankText = options.keepBlankText ?? true;
  }

  build(text: string): XmlDocument {
    this.listen(text);
    const declared = this.parser.write(text).xmlDecl;
    this.parser.close();
    const { prolog, root, epilog } = this;
    if (root === null) throw new ReadFailure({ kind: "not-musicxml", looksLike: null });
    const declaration =
      declared.version === undefined
        ? null
        : { version: declared.version, standalone: declared.standalone ?? null };
    return {
      declaration,
      prolog,
      root,
      epilog,
      lineEnd: text[text.indexOf("\n") - 1] === "\r" ? "\r\n" : "\n",
    };
  }

  /** Only what the text can hold is listened to: the parser runs four times slower from its seventh listener on. */
  private listen(text: string): void {
    const { parser } = this;
    parser.on("attribute", ({ name, value }) => this.takeAttribute(name, value));
    parser.on("opentag", ({ name }) => this.openElement(name));
    parser.on("closetag", ({ isSelfClosing }) => this.closeElement(isSelfClosing));
    parser.on("text", (found) => this.takeText(found));
    if (text.includes("<!DOCTYPE")) parser.on("doctype", (found) => this.takeDoctype(found));
    if (text.includes("<![CDATA["))
      parser.on("cdata", (found) => this.append({ kind: "cdata", text: found }));
    if (text.includes("<!--")) parser.on("comment", (found) => this.append({ kind: "comment", text: found }));
    if (text.includes("<?", 1)) {
      parser.on("processinginstruction", ({ target, body }) =>
        this.append({ kind: "instruction", target, text: body }),
      );
    }
  }

  private takeDoctype(text: string): void {
    if (text.includes("[")) throw new ReadFailure({ kind: "declarations-refused" });
    this.prolog.push({ kind: "doctype", text });
  }

  /** Into an ordinary object, which takes a third of the memory of the parser's own, unless a name forbids it. */
  private takeAttribute(name: string, value: string): void {
    if (name === "__proto__") this.attributes = Object.assign(Object.create(null), this.attributes);
    this.attributes[name] = this.shared(value);
    this.attributeCount += 1;
    if (this.attributeCount > readLimits.attributesPerElement) {
      throw new ReadFailure({ kind: "too-many-attributes", line: this.parser.line });
    }
  }

  private openElement(name: string): void {
    const opened: XmlElement = {
      kind: "element",
      name: this.shared(name),
      attributes: this.attributes,
      children: [],
    };
    this.attributes = {};
    this.attributeCount = 0;
    if (this.root === null) {
      this.countNode();
      this.root = opened;
    } else {
      this.append(opened);
    }
    this.open.push(opened);
    if (this.open.length > readLimits.depth)
      throw new ReadFailure({ kind: "too-deep", line: this.parser.line });
  }

  private closeElement(isSelfClosing: boolean): void {
    const closed = this.open.pop();
    if (closed === undefined) return;
    if (!isSelfClosing && closed.children.length === 0) closed.isTagPair = true;
    if (this.options.onClose?.(closed, this.open) === "drop") this.open.at(-1)?.children.pop();
  }

  private takeText(text: string): void {
    const parent = this.open.at(-1);
    if (parent !== undefined) {
      if (this.keepBlankText || !isBlank(text))
        parent.children.push({ kind: "text", text: this.shared(text) });
    } else if (this.keepBlankText) {
      (this.root === null ? this.prolog : this.epilog).push({ kind: "text", text });
    }
  }

  private append(node: XmlNode): void {
    this.countNode();
    const parent = this.open.at(-1);
    if (parent !== undefined) parent.children.push(node);
    else (this.root === null ? this.prolog : this.epilog).push(node);
  }

  private countNode(): void {
    this.nodeCount += 1;
    if (this.nodeCount > readLimits.nodes) throw new ReadFailure({ kind: "too-many-elements" });
  }

  /** In a tree that stays: one copy of each of the few short texts that a score is made of (names, numbers, indentation). */
  private shared(text: string): string {
    if (!this.keepBlankText || text.length > 32) return text;
    const known = this.names.get(text);
    if (known !== undefined) return known;
    if (this.names.size < 4096) this.names.set(text, text);
    return text;
  }
}

function isBlank(text: string): boolean {
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code !== 32 && code !== 10 && code !== 9 && code !== 13) return false;
  }
  return true;
}

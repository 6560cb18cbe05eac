import { failure, type Result, success } from "@/lib/score/result";
import type { ReadProblem } from "./read-problem";

export interface DecodedText {
  /** Without a byte order mark. */
  readonly text: string;
  /** WHATWG name of the encoding it was read in. */
  readonly encoding: string;
  /** The encoding the XML declaration names, when the bytes say otherwise. */
  readonly falselyDeclared: string | null;
}

/**
 * Bytes of an XML file as text: by byte order mark, else by the pattern of UTF-16 without one, else as the XML
 * declaration says, else as UTF-8 (XML 1.0, appendix F). What the bytes show wins over what is declared.
 * Latin-1 is read as windows-1252, as the WHATWG Encoding Standard has it.
 */
export function decodeText(bytes: Uint8Array): Result<DecodedText, ReadProblem> {
  const shown = encodingShownBy(bytes);
  const declared = shown === "utf-16le" || shown === "utf-16be" ? null : declaredEncoding(bytes);
  if (shown === "utf-32") return failure({ kind: "encoding-unknown", encoding: "UTF-32" });
  const encoding = shown ?? (isUtf16(declared) ? "utf-8" : declared) ?? "utf-8";
  const decoded = decodeAs(encoding, bytes);
  if (!decoded.ok) return decoded;
  const text = decoded.value;
  const inText = /^<\?xml[^>]*?encoding\s*=\s*["']([^"']*)["']/.exec(text.slice(0, 200))?.[1] ?? null;
  const isFalse = inText !== null && !isSameEncoding(inText, encoding);
  return success({ text, encoding, falselyDeclared: isFalse ? inText : null });
}

function decodeAs(encoding: string, bytes: Uint8Array): Result<string, ReadProblem> {
  let decoder: TextDecoder;
  try {
    decoder = new TextDecoder(encoding, { fatal: true });
  } catch {
    return failure({ kind: "encoding-unknown", encoding });
  }
  try {
    return success(decoder.decode(bytes));
  } catch {
    return failure({ kind: "encoding-broken", encoding: encoding.toUpperCase() });
  }
}

function encodingShownBy(bytes: Uint8Array): string | null {
  const [a, b, c, d] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return "utf-8";
  if ((a === 0xff && b === 0xfe && c === 0 && d === 0) || (a === 0 && b === 0 && c === 0xfe && d === 0xff)) {
    return "utf-32";
  }
  if (a === 0xff && b === 0xfe) return "utf-16le";
  if (a === 0xfe && b === 0xff) return "utf-16be";
  if (a === 0x3c && b === 0 && c === 0 && d === 0) return "utf-32";
  if (a === 0x3c && b === 0) return "utf-16le";
  if (a === 0 && b === 0x3c) return "utf-16be";
  return null;
}

function declaredEncoding(bytes: Uint8Array): string | null {
  const start = String.fromCharCode(...bytes.subarray(0, 200));
  return (
    /^(?:\xef\xbb\xbf)?<\?xml[^>]*?encoding\s*=\s*["']([^"']*)["']/.exec(start)?.[1]?.toLowerCase() ?? null
  );
}

function isUtf16(encoding: string | null): boolean {
  return encoding !== null && /^(utf-?16|ucs-?2)/i.test(encoding);
}

function isSameEncoding(declared: string, used: string): boolean {
  if (isUtf16(declared)) return isUtf16(used);
  try {
    return new TextDecoder(declared).encoding === new TextDecoder(used).encoding;
  } catch {
    return false;
  }
}

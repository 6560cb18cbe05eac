import { sha256 } from "@noble/hashes/sha2";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils";
import { canonicalJson, type JsonValue } from "./canonical-json";

/**
 * SHA-256, in lower-case hexadecimal, of the canonical JSON of `terms` in UTF-8: equal exactly when the terms
 * are, whatever the order of their keys. Both players agree to this number.
 */
export function hashTerms(terms: JsonValue): string {
  return hashText(canonicalJson(terms));
}

/** SHA-256, in lower-case hexadecimal, of `text` in UTF-8. */
export function hashText(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

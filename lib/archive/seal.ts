import type { JsonValue } from "@/lib/edition/canonical-json";
import { hashTerms } from "@/lib/edition/hash-terms";

/** The seal of a manifest: SHA-256 of its canonical JSON without the seal. */
export function sealOf({ seal: _seal, ...manifest }: object & { readonly seal?: string }): string {
  return hashTerms(manifest as JsonValue);
}

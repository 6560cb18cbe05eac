"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { onPiece } from "@/app/_data/on-piece";
import { publicUrl } from "@/app/_data/public-url";
import { makeReaderLink, type NewReaderLink } from "@/lib/store/readers/make-reader-link";

/** Makes a link to one edition: `{ pieceId, editionNumber, forWhom, lasting? }`. Its `link` is shown this once. */
export async function makeReaderLinkAction(
  input: unknown,
): Promise<ActionResult<NewReaderLink & { readonly link: string }>> {
  const made = await onPiece(input, makeReaderLink);
  if (!made.ok) return made;
  const link = new URL(`/read/${made.value.token}`, publicUrl()).href;
  return { ok: true, value: { ...made.value, link } };
}

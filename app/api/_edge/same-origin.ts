import { publicUrl } from "@/app/_data/public-url";

/**
 * Whether a request that changes something comes from our own pages. Browsers send `Origin` with every POST; a
 * request without one is no page of ours.
 */
export function isSameOrigin(request: Request): boolean {
  return request.headers.get("origin") === publicUrl().origin;
}

export function otherOriginResponse(): Response {
  return Response.json(
    { kind: "not-allowed", sentence: "This was not sent from a page of Colla Parte." },
    { status: 403, headers: { "cache-control": "no-store" } },
  );
}

import http from "node:http";

export interface ServerLimits {
  /** How long a request's headers may take to arrive, in milliseconds. */
  readonly headersMs: number;
  /** How long the whole request may take to arrive. */
  readonly requestMs: number;
}

/** How often connections are looked at that take too long. */
const lookEveryMs = 2_000;

/**
 * An HTTP server that waits for nobody for ever: whoever sends a request letter by letter, to hold a connection, is
 * answered 408 and cut off. An upgraded connection is no longer its concern.
 */
export function createBoundedServer(
  { headersMs, requestMs }: ServerLimits,
  answer: http.RequestListener,
): http.Server {
  return http.createServer(
    {
      headersTimeout: headersMs,
      requestTimeout: requestMs,
      connectionsCheckingInterval: Math.min(lookEveryMs, headersMs),
    },
    answer,
  );
}

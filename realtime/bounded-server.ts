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

/** @throws Error when the address cannot be listened on. */
export function listen(server: http.Server, { port, host }: { port: number; host: string }): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, host, () => {
      server.off("error", reject);
      resolve();
    });
  });
}

const graceMilliseconds = 5000;

/** Requests under way may end; what still hangs on after a while is cut off. */
export function closeServer(server: http.Server): Promise<void> {
  return new Promise((resolve) => {
    const cutOff = setTimeout(() => server.closeAllConnections(), graceMilliseconds);
    server.close(() => {
      clearTimeout(cutOff);
      resolve();
    });
    server.closeIdleConnections();
  });
}

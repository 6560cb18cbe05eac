/**
 * The one thing that stands in for Next here: the request's cookies and headers. Everything behind them is real, from
 * the token in the cookie through the session's row to the answer of the database.
 */
export const browser = {
  jar: new Map<string, string>(),
  address: "192.0.2.7",
};

/** What stands in for `next/headers`. */
export const nextHeaders = {
  cookies: async () => ({
    get: (name: string) => {
      const value = browser.jar.get(name);
      return value === undefined ? undefined : { name, value };
    },
    set: (name: string, value: string) => {
      browser.jar.set(name, value);
    },
  }),
  headers: async () => new Headers({ "x-forwarded-for": browser.address }),
};

export const publicUrl = "http://colla.test";
process.env.NEXTAUTH_URL = publicUrl;
process.env.NEXTAUTH_SECRET = "a secret of this test";

/** A request of the signed-in person's browser, from our own pages unless said otherwise. */
export function requestOf(
  path: string,
  { method = "GET", body, origin = publicUrl }: RequestParts = {},
): Request {
  const headers = new Headers({ cookie: [...browser.jar].map((pair) => pair.join("=")).join("; ") });
  if (method !== "GET" && origin !== null) headers.set("origin", origin);
  return new Request(`${publicUrl}${path}`, { method, headers, body });
}

interface RequestParts {
  readonly method?: string;
  readonly body?: FormData | string;
  readonly origin?: string | null;
}

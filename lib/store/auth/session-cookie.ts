/** How the session cookie is set: unreadable for scripts, not sent along by other sites' forms. */
export interface SessionCookie {
  readonly name: string;
  readonly options: {
    readonly httpOnly: true;
    readonly sameSite: "lax";
    readonly path: "/";
    readonly secure: boolean;
  };
}

/**
 * The cookie that carries the session's token, under next-auth's own names.
 *
 * @param publicUrl the address people open (`NEXTAUTH_URL`); over https the cookie is `Secure`.
 */
export function sessionCookie(publicUrl: string): SessionCookie {
  const secure = publicUrl.startsWith("https://");
  return {
    name: secure ? "__Secure-next-auth.session-token" : "next-auth.session-token",
    options: { httpOnly: true, sameSite: "lax", path: "/", secure },
  };
}

/** The session's token in a `Cookie` header; null when there is none. */
export function readSessionToken(cookieHeader: string | undefined, publicUrl: string): string | null {
  const { name } = sessionCookie(publicUrl);
  for (const pair of (cookieHeader ?? "").split(";")) {
    const split = pair.indexOf("=");
    if (split > 0 && pair.slice(0, split).trim() === name) return pair.slice(split + 1).trim() || null;
  }
  return null;
}

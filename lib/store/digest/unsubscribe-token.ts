import { createHmac, timingSafeEqual } from "node:crypto";

/** What the signature is for: one made for this is good for nothing else, and none made for something else is good here. */
const purpose = "colla-parte: no more news by e-mail (1)";

/**
 * The part of a link that turns a person's messages off without a sign-in. It never runs out, because old messages are
 * where people look for it, and it can do nothing else.
 *
 * @param secret `NEXTAUTH_SECRET`.
 */
export function makeUnsubscribeToken(userId: string, secret: string): string {
  return `${Buffer.from(userId, "utf8").toString("base64url")}.${sign(userId, secret).toString("base64url")}`;
}

/** Whose messages a token turns off; null for one that we did not sign. */
export function readUnsubscribeToken(token: string, secret: string): string | null {
  if (token.length > 400) return null;
  const [name = "", signature = "", ...more] = token.split(".");
  const userId = Buffer.from(name, "base64url").toString("utf8");
  const given = Buffer.from(signature, "base64url");
  const right = sign(userId, secret);
  if (userId === "" || more.length > 0 || given.length !== right.length) return null;
  return timingSafeEqual(given, right) ? userId : null;
}

/** HMAC-SHA256 (RFC 2104) over the purpose and the person. */
function sign(userId: string, secret: string): Buffer {
  return createHmac("sha256", secret).update(`${purpose}\n${userId}`, "utf8").digest();
}

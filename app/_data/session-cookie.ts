import { cookies } from "next/headers";
import { publicUrl } from "@/app/_data/public-url";
import { endSession, startSession } from "@/lib/store/auth/session";
import { sessionCookie } from "@/lib/store/auth/session-cookie";

/** Signs the person in on this device. For actions and routes: a page cannot set cookies. */
export async function giveSession(userId: string): Promise<void> {
  const { name, options } = sessionCookie(publicUrl().href);
  const { token, expires } = await startSession(userId);
  (await cookies()).set(name, token, { ...options, expires });
}

/** Signs out on this device. */
export async function takeSession(): Promise<void> {
  const { name, options } = sessionCookie(publicUrl().href);
  const jar = await cookies();
  const token = jar.get(name)?.value;
  if (token) await endSession(token);
  jar.set(name, "", { ...options, maxAge: 0 });
}

/** The token of the session on this device; null without one. */
export async function sessionToken(): Promise<string | null> {
  return (await cookies()).get(sessionCookie(publicUrl().href).name)?.value ?? null;
}

import { cookies } from "next/headers";
import { redirect } from "next/navigation";
import { cache } from "react";
import { publicUrl } from "@/app/_data/public-url";
import { readSession } from "@/lib/store/auth/session";
import { sessionCookie } from "@/lib/store/auth/session-cookie";
import type { Viewer } from "@/lib/store/viewer";

/** Who is signed in, with what the header of each page shows. */
export interface SignedInViewer extends Viewer {
  readonly name: string;
  readonly email: string;
}

/** Who is signed in; null when nobody is. Read once a request. */
export const readViewer: () => Promise<SignedInViewer | null> = cache(async () => {
  const token = (await cookies()).get(sessionCookie(publicUrl().href).name)?.value;
  const session = token ? await readSession(token) : null;
  return session && { userId: session.userId, name: session.name, email: session.email };
});

/** Who is signed in; sends everybody else to sign in first. For pages, not for actions and routes. */
export async function requireViewer(): Promise<SignedInViewer> {
  return (await readViewer()) ?? redirect("/sign-in");
}

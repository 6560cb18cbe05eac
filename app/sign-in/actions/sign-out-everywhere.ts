"use server";

import { redirect } from "next/navigation";
import { takeSession } from "@/app/_data/session-cookie";
import { readViewer } from "@/app/_data/viewer";
import { endAllSessions } from "@/lib/store/auth/session";

/** Signs out on every device at once and goes to the sign-in page. */
export async function signOutEverywhereAction(): Promise<never> {
  const viewer = await readViewer();
  if (viewer) await endAllSessions(viewer);
  await takeSession();
  redirect("/sign-in");
}

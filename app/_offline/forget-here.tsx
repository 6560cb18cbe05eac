"use client";

import { useEffect } from "react";
import { listCopies } from "@/app/_room/copy-name";
import { forgetAllPages } from "./tell-worker";

/**
 * On a page that only somebody sees who is not signed in: what is kept in this browser of whoever was here before
 * goes, but what they wrote and could not send. Shows nothing.
 */
export function ForgetHere() {
  useEffect(() => {
    void forgetAllPages();
    void forgetCopies(() => true);
  }, []);
  return null;
}

/** Lets go of copies of rooms with nothing unsaved in them. @param isMeant by whose they are. */
export async function forgetCopies(isMeant: (userId: string) => boolean): Promise<void> {
  const copies = await listCopies();
  if (!copies.some(({ userId }) => isMeant(userId))) return;
  // Reading copies takes what rooms are made of, which few pages need.
  const { clearCopies } = await import("@/app/_room/left-writings");
  await clearCopies(({ userId }) => isMeant(userId));
}

"use server";

import { redirect } from "next/navigation";
import { takeSession } from "@/app/_data/session-cookie";

/** Signs out on this device and goes to the sign-in page. Takes nothing, so it may be a form's action. */
export async function signOutAction(): Promise<never> {
  await takeSession();
  redirect("/sign-in");
}

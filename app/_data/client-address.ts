import { headers } from "next/headers";

/** The visitor's network address, as the server in front of the pages pinned it; nothing a visitor can write. */
export async function clientAddress(): Promise<string> {
  return addressOf((await headers()).get("x-forwarded-for"));
}

/** The same, from a request's headers. */
export function addressOf(forwardedFor: string | null | undefined): string {
  return forwardedFor?.split(",").at(-1)?.trim() || "unknown";
}

import { z } from "zod";
import { publicUrl } from "./public-url";

const environmentSchema = z.object({
  COLLA_ROOMS_URL: z.url({ protocol: /^wss?$/ }).optional(),
});

/**
 * Where rooms lie when they lie on another origin than the pages (`COLLA_ROOMS_URL`): the session's cookie does
 * not reach them there, and a page asks for a ticket. Null when they are behind the pages' own address.
 *
 * @throws ZodError if `COLLA_ROOMS_URL` is not a WebSocket address.
 */
export function foreignRoomsAddress(
  environment: Readonly<Record<string, string | undefined>> = process.env,
): string | null {
  const { COLLA_ROOMS_URL } = environmentSchema.parse({
    COLLA_ROOMS_URL: environment.COLLA_ROOMS_URL || undefined,
  });
  if (!COLLA_ROOMS_URL) return null;
  const { origin, pathname } = new URL(COLLA_ROOMS_URL);
  // A WebSocket address has an origin of its own kind: its scheme, host and port.
  return `${origin}${pathname === "/" ? "/rooms" : pathname.replace(/\/+$/, "")}`;
}

/** Where rooms lie, wherever that is. */
export function roomsAddress(): string {
  const { protocol, host } = publicUrl();
  return foreignRoomsAddress() ?? `${protocol === "https:" ? "wss:" : "ws:"}//${host}/rooms`;
}

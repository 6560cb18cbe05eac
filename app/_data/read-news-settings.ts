import { hasMailServer } from "@/app/_mail/read-mail-settings";
import { readWantsDigest } from "@/lib/store/digest/set-wants-digest";
import type { SignedInViewer } from "./viewer";

/** What the settings say about the viewer's news by e-mail. */
export async function readNewsSettings(
  viewer: SignedInViewer,
): Promise<{ wantsDigest: boolean; email: string; isSent: boolean }> {
  const wantsDigest = await readWantsDigest(viewer);
  return { wantsDigest, email: viewer.email, isSent: hasMailServer(process.env) };
}

import { createHash, randomUUID } from "node:crypto";
import fs from "node:fs/promises";
import path from "node:path";
import type { ComposedMail } from "./compose-mail";
import type { Post } from "./mail-post";

/**
 * A folder that messages are laid into, for a house without a mail server: one `.eml` file each, readable by its owner
 * only. A file is there whole or not at all, also after a power cut; its name comes from the message's id, so the same
 * message sent twice is one file.
 */
export function openFileOutbox(folder: string): Post {
  return {
    send: async (mail) => {
      await fs.mkdir(folder, { recursive: true, mode: 0o700 });
      await writeWhole(folder, nameOf(mail), mail.bytes);
    },
    close: async () => {},
  };
}

/** Nothing of an id, which holds a host's name, becomes part of a path. */
function nameOf({ id }: ComposedMail): string {
  return `${createHash("sha256").update(id).digest("hex").slice(0, 32)}.eml`;
}

async function writeWhole(folder: string, name: string, bytes: Buffer): Promise<void> {
  const unfinished = path.join(folder, `.${randomUUID()}.part`);
  try {
    const file = await fs.open(unfinished, "wx", 0o600);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await fs.rename(unfinished, path.join(folder, name));
  } catch (error) {
    await fs.rm(unfinished, { force: true });
    throw error;
  }
}

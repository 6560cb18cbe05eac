import type { ComposedMail } from "./compose-mail";
import { openFileOutbox } from "./file-outbox";
import type { MailSettings } from "./read-mail-settings";
import { openSmtpPost } from "./smtp-post";

/** Takes composed messages: once `send` has resolved, a message is not ours any more. */
export interface Post {
  send(mail: ComposedMail): Promise<void>;
  close(): Promise<void>;
}

/** The way out that the settings name. */
export function openPost({ post }: Pick<MailSettings, "post">): Post {
  return post.kind === "smtp" ? openSmtpPost(post.server) : openFileOutbox(post.folder);
}

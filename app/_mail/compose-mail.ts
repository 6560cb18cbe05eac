import MailComposer from "nodemailer/lib/mail-composer";
import type { Message } from "./digest-message";
import type { MailSettings } from "./read-mail-settings";

/** A message as it travels (RFC 5322), and the addresses on its envelope. */
export interface ComposedMail {
  readonly bytes: Buffer;
  readonly envelope: { readonly from: string; readonly to: string };
  /** Without angle brackets. */
  readonly id: string;
}

/**
 * Composes a message, in plain text and in HTML. The library encodes what is not ASCII and lets no value of a header run
 * into the next; the texts it gets here are single lines already.
 */
export async function composeMail(
  message: Message,
  from: MailSettings["from"],
  at: Date,
): Promise<ComposedMail> {
  const composer = new MailComposer({
    from,
    to: message.to,
    subject: message.subject,
    text: message.text,
    html: message.html,
    date: at,
    messageId: `<${message.id}>`,
    headers: {
      // Nobody's absence note is wanted in return (RFC 3834).
      "Auto-Submitted": "auto-generated",
      // Written as it is, since an address must not be encoded; it is ours and ASCII.
      "List-Unsubscribe": { prepared: true, value: `<${message.unsubscribeUrl}>` },
      "List-Unsubscribe-Post": "List-Unsubscribe=One-Click",
    },
    // Nothing in a message is a file's name or an address to fetch.
    disableFileAccess: true,
    disableUrlAccess: true,
    newline: "windows",
  });
  const bytes = await composer.compile().build();
  return { bytes, envelope: { from: from.address, to: message.to.address }, id: message.id };
}

import path from "node:path";
import { z } from "zod";

/** Where messages go. */
export type MailPost =
  | { readonly kind: "smtp"; readonly server: SmtpServer }
  /** A folder of files, one a message, for whoever runs the product. */
  | { readonly kind: "outbox"; readonly folder: string };

export interface SmtpServer {
  readonly host: string;
  readonly port: number;
  /** TLS from the first byte (`smtps:`); otherwise STARTTLS when the server offers it. */
  readonly isSecure: boolean;
  readonly account: { readonly user: string; readonly password: string } | null;
}

export interface MailSettings {
  readonly post: MailPost;
  /** Who the messages are from: an address, with or without a name before it. */
  readonly from: { readonly name: string; readonly address: string };
  /** The one address people use. */
  readonly publicUrl: URL;
  /** Signs the links by which messages are turned off. */
  readonly secret: string;
}

const orNothing = <T extends z.ZodType>(schema: T) => z.preprocess((text) => text || undefined, schema);

// The sentences repeat no value: an address of a mail server may hold a password.
const environmentSchema = z
  .object({
    SMTP_URL: orNothing(
      z
        .string()
        .refine(isSmtpUrl, "SMTP_URL is not an address that begins with smtp:// or smtps://.")
        .optional(),
    ),
    MAIL_FROM: orNothing(
      z
        .string()
        .refine(
          (text) => readSender(text) !== null,
          'MAIL_FROM is not an address such as "Colla Parte <post@example.org>".',
        )
        .optional(),
    ),
    COLLA_OUTBOX: orNothing(z.string().default(path.join(".data", "outbox"))),
    NEXTAUTH_URL: z.url({ protocol: /^https?$/ }),
    NEXTAUTH_SECRET: z.string().min(1, "NEXTAUTH_SECRET is missing."),
  })
  .refine(
    ({ SMTP_URL, MAIL_FROM }) => SMTP_URL === undefined || MAIL_FROM !== undefined,
    "SMTP_URL is set, but not MAIL_FROM: say from which address messages come.",
  );

/**
 * How mail goes out, as the environment says: by `SMTP_URL` and `MAIL_FROM`, and without them into a folder.
 *
 * @throws ZodError with a sentence for whoever runs the product.
 */
export function readMailSettings(environment: NodeJS.ProcessEnv): MailSettings {
  const { SMTP_URL, MAIL_FROM, COLLA_OUTBOX, NEXTAUTH_URL, NEXTAUTH_SECRET } =
    environmentSchema.parse(environment);
  const publicUrl = new URL(NEXTAUTH_URL);
  return {
    post: SMTP_URL
      ? { kind: "smtp", server: readServer(new URL(SMTP_URL)) }
      : { kind: "outbox", folder: path.resolve(COLLA_OUTBOX) },
    from: readSender(MAIL_FROM ?? "") ?? { name: "Colla Parte", address: `post@${publicUrl.hostname}` },
    publicUrl,
    secret: NEXTAUTH_SECRET,
  };
}

/** Whether messages leave this machine; otherwise they only wait in a folder. */
export function hasMailServer(environment: NodeJS.ProcessEnv): boolean {
  return Boolean(environment.SMTP_URL);
}

function isSmtpUrl(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const { protocol, hostname } = new URL(text);
  return /^smtps?:$/.test(protocol) && hostname !== "";
}

/** Only what is named here is taken from the address: what else a mail library reads out of one is not wanted. */
function readServer(url: URL): SmtpServer {
  const isSecure = url.protocol === "smtps:";
  const account = url.username
    ? { user: decodeURIComponent(url.username), password: decodeURIComponent(url.password) }
    : null;
  // Submission (RFC 6409) and submission over TLS (RFC 8314).
  const port = Number(url.port) || (isSecure ? 465 : 587);
  return { host: url.hostname.replace(/^\[|\]$/g, ""), port, isSecure, account };
}

/** "Colla Parte <post@example.org>" or the address alone. */
function readSender(text: string): MailSettings["from"] | null {
  const [, name = "", address = text.trim()] = /^\s*"?([^"<>\r\n]*?)"?\s*<([^<>\s]+)>\s*$/.exec(text) ?? [];
  return z.email().safeParse(address).success ? { name, address } : null;
}

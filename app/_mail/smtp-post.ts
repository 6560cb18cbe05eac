import { createTransport } from "nodemailer";
import type { Post } from "./mail-post";
import type { SmtpServer } from "./read-mail-settings";

/** In milliseconds. A server that does not answer holds the round up no longer than this. */
const patience = {
  connectionTimeout: 10_000,
  greetingTimeout: 10_000,
  socketTimeout: 15_000,
  dnsTimeout: 10_000,
};

/** Hands messages to a mail server. What it has accepted is its to deliver. */
export function openSmtpPost({ host, port, isSecure, account }: SmtpServer): Post {
  const transport = createTransport({
    host,
    port,
    secure: isSecure,
    // A password goes over no line that others can listen to.
    requireTLS: account !== null && !isSecure && !isThisMachine(host),
    auth: account ? { user: account.user, pass: account.password } : undefined,
    disableFileAccess: true,
    disableUrlAccess: true,
    ...patience,
  });
  return {
    send: async ({ bytes, envelope }) => {
      if (isForExamples(envelope.to)) return;
      await transport.sendMail({ envelope: { from: envelope.from, to: [envelope.to] }, raw: bytes });
    },
    close: async () => transport.close(),
  };
}

function isThisMachine(host: string): boolean {
  return host === "localhost" || host === "::1" || /^127\./.test(host);
}

/** Addresses that are nobody's (RFC 2606, section 3), such as those of the demo: a mail server would send them back. */
function isForExamples(address: string): boolean {
  return /[@.]example(\.(com|net|org))?$/i.test(address);
}

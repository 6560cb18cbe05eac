import type { Metadata } from "next";
import { mailSecret } from "@/app/_mail/mail-secret";
import { Brand } from "@/app/_ui/brand";
import { Button, ButtonLink } from "@/app/_ui/button";
import { Sheet } from "@/app/_ui/sheet";
import { readUnsubscribeToken } from "@/lib/store/digest/unsubscribe-token";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "News by e-mail", referrer: "no-referrer" };

interface Props {
  readonly params: Promise<{ token: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/**
 * Where the link at the end of a message leads. Opening it changes nothing, since mail programs open links to look at
 * them; the button does. It says nothing about the person: whoever reads the message need not be them.
 */
export default async function UnsubscribePage({ params, searchParams }: Props) {
  const { token } = await params;
  const isDone = (await searchParams).done !== undefined;
  const isOurs = readUnsubscribeToken(token, mailSecret()) !== null;
  return (
    <>
      <header className={styles.head}>
        <Brand />
      </header>
      <main className={styles.page}>
        <Sheet className={styles.sheet}>
          {!isOurs ? <NotOurs /> : isDone ? <Done /> : <Ask token={token} />}
        </Sheet>
      </main>
    </>
  );
}

function Ask({ token }: { token: string }) {
  return (
    <>
      <h1>No more news by e-mail?</h1>
      <p>Nothing changes in the pieces. You see what is new when you open them.</p>
      <form method="post" action={`/api/unsubscribe/${encodeURIComponent(token)}?then=page`}>
        <Button type="submit" kind="settle">
          Send no more
        </Button>
      </form>
    </>
  );
}

function Done() {
  return (
    <>
      <h1>No more news by e-mail.</h1>
      <p>To have them again, turn them on in the settings of any of your pieces.</p>
      <ButtonLink href="/">Your pieces</ButtonLink>
    </>
  );
}

function NotOurs() {
  return (
    <>
      <h1>This link turns nothing off</h1>
      <p>Part of it is missing. Copy the whole link, or use the settings of any of your pieces.</p>
      <ButtonLink href="/">Your pieces</ButtonLink>
    </>
  );
}

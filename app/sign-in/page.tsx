import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { readReturnPath } from "@/app/_data/return-path";
import { readViewer } from "@/app/_data/viewer";
import { ForgetHere } from "@/app/_offline/forget-here";
import { Brand } from "@/app/_ui/brand";
import { SignInForm } from "./_components/sign-in-form";
import { TwoLines } from "./_components/two-lines";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "Sign in" };

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const returnPath = readReturnPath((await searchParams).to);
  if (await readViewer()) redirect(returnPath);
  return (
    <div className={styles.gate}>
      <ForgetHere />
      <header className={styles.head}>
        <Brand isLink={false} />
      </header>
      <main className={styles.middle}>
        <div>
          <h1>Pianist and soloist, one reading</h1>
          <p className={styles.below}>
            Tuttis timed, cuts weighed and agreed bar by bar, one edition in both your hands before the first
            rehearsal.
          </p>
          <TwoLines />
        </div>
        <SignInForm returnPath={returnPath} />
      </main>
      <p className={styles.foot}>
        What you bring here is seen by those you invite to it, and by nobody else.
      </p>
    </div>
  );
}

import type { Metadata } from "next";
import { requireViewer } from "@/app/_data/viewer";
import { DeletedPieces } from "@/app/(desk)/_home/deleted-pieces";
import { PiecesHeader } from "@/app/(desk)/_home/pieces-header";
import { listDeletedPieces } from "@/lib/store/deletion/list-deleted-pieces";
import { initialOf } from "@/lib/store/pieces/piece-record";
import { AboutMe } from "./_components/about-me";
import { ChangePassword } from "./_components/change-password";
import { RemoveAccount } from "./_components/remove-account";
import { TakeAccount } from "./_components/take-account";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "Your account" };

/** The person's own account: what is known of them, taking it along, and leaving. */
export default async function AccountPage() {
  const viewer = await requireViewer();
  const deleted = await listDeletedPieces(viewer);
  return (
    <>
      <PiecesHeader viewer={viewer} />
      <main className={styles.account} id="main">
        <h1>Your account</h1>
        <AboutMe name={viewer.name} email={viewer.email} initial={initialOf(viewer.name)} />
        <ChangePassword />
        <TakeAccount />
        <RemoveAccount name={viewer.name} />
        <DeletedPieces pieces={deleted} />
      </main>
    </>
  );
}

import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readPrint } from "@/app/_data/editions/read-print";
import { requireViewer } from "@/app/_data/viewer";
import { Sheet } from "@/app/_ui/sheet";
import { SkipLink } from "@/app/_ui/skip-link";
import { printChoiceSchema } from "./_components/print-choice";
import { PrintScreen } from "./_components/print-screen";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "Print" };

/** Both players' parts of an edition as they will be printed: options, pages, turns, pinned breaks and files. */
export default async function PrintPage({
  params,
  searchParams,
}: {
  params: Promise<{ pieceId: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const viewer = await requireViewer();
  const asked = await searchParams;
  const read = await readPrint(viewer, (await params).pieceId, asked);
  if (!read.ok) notFound();
  const view = read.value;
  if (view.edition === null) {
    return (
      <main className={styles.page} id="main">
        <Sheet className={styles.none}>
          <h1>Print</h1>
          <p>
            There is no edition yet. When both players agree to what stands, it is frozen and can be printed.
          </p>
        </Sheet>
      </main>
    );
  }
  return (
    <>
      <SkipLink to="parts">Go to the parts</SkipLink>
      <PrintScreen
        key={view.edition}
        view={view}
        edition={view.edition}
        first={printChoiceSchema.parse(asked)}
      />
    </>
  );
}

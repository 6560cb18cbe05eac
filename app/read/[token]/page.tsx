import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { clientAddress } from "@/app/_data/client-address";
import { ReadingScreen } from "@/app/_read/reading-screen";
import { openReaderLink } from "@/lib/store/readers/open-reader-link";
import { sayStoreProblem } from "@/lib/store/store-problem";
import { ClosedLink } from "./_components/closed-link";

export const metadata: Metadata = {
  title: "Reading",
  referrer: "no-referrer",
  robots: { index: false, follow: false },
};

/** One edition for somebody who was given its link: no account, and nothing else of the piece. */
export default async function ReaderPage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  const opened = await openReaderLink(token, await clientAddress());
  if (!opened.ok && opened.problem.kind === "not-found") notFound();
  if (!opened.ok) return <ClosedLink>{sayStoreProblem(opened.problem)}</ClosedLink>;
  const api = `/api/read/${encodeURIComponent(token)}`;
  return (
    <ReadingScreen cover={opened.value} mine="pianist" planAddress={api} pictureAddress={api} close={null} />
  );
}

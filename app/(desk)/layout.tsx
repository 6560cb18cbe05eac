import type { ReactNode } from "react";
import { readViewer } from "@/app/_data/viewer";
import { KeepOffline } from "@/app/_offline/keep-offline";
import { KeptNotice } from "@/app/_offline/kept-notice";
import { UnsentPractice } from "@/app/_practice/unsent-practice";
import { UnsentRuns } from "@/app/_stopwatch/unsent-runs";

/** What all screens of somebody signed in share: they are kept on the device, and say so when they come from there. */
export default async function DeskLayout({ children }: { children: ReactNode }) {
  const viewer = await readViewer();
  return (
    <>
      <KeptNotice />
      {viewer && <UnsentRuns userId={viewer.userId} />}
      {viewer && <UnsentPractice userId={viewer.userId} />}
      {children}
      {viewer && <KeepOffline userId={viewer.userId} />}
    </>
  );
}

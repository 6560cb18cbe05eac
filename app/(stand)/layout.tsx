import type { ReactNode } from "react";
import { readViewer } from "@/app/_data/viewer";
import { KeepOffline } from "@/app/_offline/keep-offline";

/** At the piano and on the stand: nothing around what is played from. It is kept on the device. */
export default async function StandLayout({ children }: { children: ReactNode }) {
  const viewer = await readViewer();
  return (
    <>
      {children}
      {viewer && <KeepOffline userId={viewer.userId} />}
    </>
  );
}

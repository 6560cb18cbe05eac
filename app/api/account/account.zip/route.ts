import { download } from "@/app/api/_edge/download";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { exportAccount } from "@/lib/store/account/export-account";

/** The viewer's own account to take along, as one zip archive. */
export async function GET(): Promise<Response> {
  return forViewer(exportAccount, (bytes) =>
    download(bytes, { name: "my account, Colla Parte.zip", type: "application/zip" }),
  );
}

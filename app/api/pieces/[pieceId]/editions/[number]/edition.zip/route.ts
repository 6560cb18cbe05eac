import { z } from "zod";
import { download } from "@/app/api/_edge/download";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import { failure } from "@/lib/score/result";
import { exportEdition } from "@/lib/store/editions/export-edition";

const numberSchema = z.coerce.number().int().min(1).max(100_000);

/** The edition to take along: its chain, its music and the hashes to check them by, as one zip archive. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string; number: string }> },
): Promise<Response> {
  const { pieceId, number } = await params;
  const asked = numberSchema.safeParse(number);
  return forViewer(
    async (viewer) =>
      asked.success
        ? exportEdition(viewer, pieceId, asked.data, engraverVersion)
        : failure({ kind: "not-found" as const }),
    ({ title, bytes }) => {
      const plain = title.replace(/[\\/:*?"<>|]/g, " ").trim();
      return download(bytes, { name: `${plain}, no. ${asked.data}, edition.zip`, type: "application/zip" });
    },
  );
}

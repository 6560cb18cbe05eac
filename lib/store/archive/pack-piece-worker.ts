import { parentPort, workerData } from "node:worker_threads";
import { writePieceArchive } from "@/lib/archive/write-piece-archive";
import type { PieceToPack } from "./pack-in-thread";
import { toPieceArchive } from "./to-piece-archive";

// One thread for one piece: see pack-in-thread.ts.
const { row, pages } = workerData as PieceToPack;
const archive = await toPieceArchive(row);
const bytes = writePieceArchive(pages.size > 0 ? { ...archive, pages } : archive);
parentPort?.postMessage(bytes, [bytes.buffer]);

import { parentPort, workerData } from "node:worker_threads";
import { type DrawnMusic, writeDrawnMusic } from "./music-of-view";

// One thread for one score: see write-in-thread.ts.
parentPort?.postMessage(writeDrawnMusic(workerData as DrawnMusic));

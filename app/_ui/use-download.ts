"use client";

import { useState } from "react";
import { z } from "zod";

const progressSchema = z.object({ progress: z.number() });
const problemSchema = z.object({ sentence: z.string() });
const lost = "The connection broke off while the file was being made. Try again.";

/** How long to wait before asking again how far a file is. */
const pauseMilliseconds = 400;

/** Asks for a file until it is there; meanwhile the server answers 202 and says how far it is. */
async function fetchFile(address: string, tell: (progress: number) => void): Promise<Response> {
  const url = new URL(address, location.href);
  url.searchParams.set("soon", "yes");
  for (;;) {
    const response = await fetch(url);
    if (response.status !== 202) return response;
    const told = progressSchema.safeParse(await response.json());
    if (told.success) tell(told.data.progress);
    await new Promise((resolve) => setTimeout(resolve, pauseMilliseconds));
  }
}

/** The name that the server gave the file. */
function nameOf(response: Response, fallback: string): string {
  const disposition = response.headers.get("content-disposition") ?? "";
  const encoded = /filename\*=UTF-8''([^;]+)/.exec(disposition)?.[1];
  return encoded ? decodeURIComponent(encoded) : fallback;
}

function save(file: Blob, name: string): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The browser has the file by now; the address only keeps memory.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/**
 * Fetches a file that takes a while to be made, so that the page can say so, and what went wrong in words.
 *
 * @returns `making` is the address under way, null when none is; `progress` how far it is, from 0 to 1, null before that
 * is known.
 */
export function useDownload(): {
  start: (address: string) => Promise<void>;
  making: string | null;
  progress: number | null;
  problem: string | null;
} {
  const [making, setMaking] = useState<string | null>(null);
  const [progress, setProgress] = useState<number | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const start = async (address: string) => {
    setMaking(address);
    setProgress(null);
    setProblem(null);
    try {
      const response = await fetchFile(address, setProgress);
      if (response.ok) {
        const last = new URL(address, location.href).pathname.split("/").at(-1) ?? "edition";
        save(await response.blob(), nameOf(response, last));
      } else {
        const told = problemSchema.safeParse(await response.json().catch(() => null));
        setProblem(told.success ? told.data.sentence : `The file could not be made (${response.status}).`);
      }
    } catch {
      setProblem(lost);
    }
    setMaking(null);
  };
  return { start, making, progress, problem };
}

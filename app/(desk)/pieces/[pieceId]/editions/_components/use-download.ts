"use client";

import { useState } from "react";
import { z } from "zod";

const problemSchema = z.object({ sentence: z.string() });
const lost = "The connection broke off while the file was being made. Try again.";

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
 * @returns `making` is the address under way, null when none is.
 */
export function useDownload(): {
  start: (address: string) => Promise<void>;
  making: string | null;
  problem: string | null;
} {
  const [making, setMaking] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const start = async (address: string) => {
    setMaking(address);
    setProblem(null);
    try {
      const response = await fetch(address);
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
  return { start, making, problem };
}

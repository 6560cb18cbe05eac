import fs from "node:fs";
import { type Browser, chromium } from "playwright-core";

const systemBrowsers = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];

/**
 * The browser to test with: `CHROMIUM_PATH`, one that is installed, or the one that comes as a package (Linux on
 * x64 only); null when there is none, so that the caller can skip and say so.
 *
 * @throws RangeError if `CHROMIUM_PATH` names no file.
 */
export async function findBrowser(): Promise<string | null> {
  const named = process.env.CHROMIUM_PATH;
  if (named && !fs.existsSync(named)) throw new RangeError(`CHROMIUM_PATH names no file: ${named}`);
  const installed = [named, ...systemBrowsers].find((file) => file && fs.existsSync(file));
  return installed ?? (await unpackBrowser());
}

async function unpackBrowser(): Promise<string | null> {
  if (process.platform !== "linux" || process.arch !== "x64") return null;
  // Makes the package unpack the libraries that small systems lack; read while it is being loaded.
  process.env.AWS_EXECUTION_ENV ??= "AWS_Lambda_nodejs20.x";
  const { default: packaged } = await import("@sparticuz/chromium");
  return packaged.executablePath();
}

/** No sandbox, as tests run as root in containers; nothing that calls home or asks questions at first use. */
const options = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Starts the browser with a profile of its own that is gone afterwards. */
export function launchBrowser(executablePath: string): Promise<Browser> {
  return chromium.launch({ executablePath, args: options });
}

/** The line that a browser test prints when it has to be skipped. */
export const missingBrowser =
  "SKIPPED: no browser found; install chromium or set CHROMIUM_PATH to run the browser tests.";

import { bundleThreads } from "@/app/_commands/build-product.mjs";

/** Set-up of the projects whose tests start worker threads, which run as bundled files only. */
export default async function setup(): Promise<void> {
  await bundleThreads();
}

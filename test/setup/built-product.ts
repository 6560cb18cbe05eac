import { buildPages, bundleServer, generateClient } from "@/app/_commands/build-product.mjs";

/** Set-up of the browser tests: what `npm start` would serve, built when its sources changed. */
export default async function setup(): Promise<void> {
  await generateClient();
  await bundleServer();
  await buildPages((note) => console.log(note));
}

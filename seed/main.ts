import { randomBytes } from "node:crypto";
import { closeDatabase } from "@/lib/store/database";
import { demoNames, demoPeople } from "./demo-people";
import { loadDemo } from "./load-demo";

/** For a server that only this machine can reach, where the demo is the whole database. */
const simplePassword = "tern-hall-21";

/** Loads the demo once and prints how to sign in to it, in one line. */
async function main(): Promise<void> {
  const isOwnMachine = isLoopback(process.env.NEXTAUTH_URL ?? "http://localhost");
  const password = isOwnMachine ? simplePassword : randomBytes(9).toString("base64url");
  try {
    const isNew = await loadDemo(password);
    console.log(saySignIns(isNew || isOwnMachine ? password : null));
  } finally {
    await closeDatabase();
  }
}

/** Whoever serves the product to others gets a password that cannot be guessed from these sources. */
function isLoopback(address: string): boolean {
  return ["localhost", "127.0.0.1", "[::1]"].includes(new URL(address).hostname);
}

function saySignIns(password: string | null): string {
  const people = demoNames.map((name) => `${demoPeople[name].email} (${demoPeople[name].plays})`);
  const how = password === null ? "password as printed when the demo was loaded" : `password ${password}`;
  return `${people.join(", ")}, ${how}`;
}

await main();
